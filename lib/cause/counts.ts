import { type EvidenceId, evidenceIds } from "../schema/evidence-ids.ts";
import type { StripDown } from "../schema/strip-down.ts";
import { causes } from "../schema/words.ts";
import { evidence } from "./evidence.ts";

/**
 * What strip-downs of one engine model found, as counts beside the starting table. A case in which two causes were found
 * counts half for each; a finding that was seen weakly counts in part.
 */
export interface CauseCounts {
  /** Cylinders opened in which a cause was found. */
  readonly cases: number;
  /** Of these, with more than one cause. */
  readonly together: number;
  /** By cause, in the order of `causes`; sums to `cases`. */
  readonly causes: readonly number[];
  /** For rows whose question was asked before the repair, by cause: how often it was asked, and how often seen. */
  readonly rows: Readonly<Partial<Record<EvidenceId, RowCounts>>>;
}

interface RowCounts {
  readonly asked: readonly number[];
  readonly seen: readonly number[];
}

const none = causes.map(() => 0);

export const noCounts: CauseCounts = { cases: 0, together: 0, causes: none, rows: {} };

const sum = (a: readonly number[], b: readonly number[]): readonly number[] => a.map((value, i) => value + (b[i] ?? 0));

/** Two counts as one: counts of an engine model are those of its engines together. */
export function addCounts(a: CauseCounts, b: CauseCounts): CauseCounts {
  const rows = { ...a.rows };
  for (const id of evidenceIds) {
    const more = b.rows[id];
    if (more === undefined) continue;
    const known = rows[id] ?? { asked: none, seen: none };
    rows[id] = { asked: sum(known.asked, more.asked), seen: sum(known.seen, more.seen) };
  }
  return { cases: a.cases + b.cases, together: a.together + b.together, causes: sum(a.causes, b.causes), rows };
}

/**
 * Counts what strip-downs found beside what had been seen before them. One that was opened and found sound names no cause
 * and teaches nothing of them. The order does not matter.
 */
export const countStripDowns = (some: readonly StripDown[]): CauseCounts =>
  some.reduce((counts, one) => addCounts(counts, countsOf(one)), noCounts);

function countsOf({ found, seen, asked }: StripDown): CauseCounts {
  if (found.length === 0) return noCounts;
  const weights = causes.map((cause) => (found.includes(cause) ? 1 / found.length : 0));
  const rows: Partial<Record<EvidenceId, RowCounts>> = {};
  for (const id of evidenceIds) {
    const { question } = evidence[id];
    if (question === null || !asked.includes(question)) continue;
    // What was seen before an earlier repair spoke of parts that were no longer there.
    const strength = Math.min(
      1,
      seen.reduce((total, one) => (one.id === id && one.renewed === 0 ? total + one.strength : total), 0),
    );
    rows[id] = { asked: weights, seen: weights.map((weight) => weight * strength) };
  }
  return { cases: 1, together: found.length > 1 ? 1 : 0, causes: weights, rows };
}

/**
 * So many strip-downs are worth as much as the judgement in the starting table, for each likelihood and for the shares
 * before anything is seen: one finding moves them little, several that agree give way to what was found. (J)
 */
export const startingWeight = 12;

/**
 * A likelihood after the strip-downs: the posterior mean of a Dirichlet distribution over "seen" and "not seen" whose
 * starting counts are `startingWeight` split by the table. Source: Gelman et al., Bayesian Data Analysis, 3rd ed. (2013),
 * sections 2.4 and 3.4.
 */
export function learnedLikelihood(start: number, { rows }: CauseCounts, id: EvidenceId, cause: number): number {
  const row = rows[id];
  if (row === undefined) return start;
  const [asked, seen] = [row.asked[cause] ?? 0, row.seen[cause] ?? 0];
  return (startingWeight * start + seen) / (startingWeight + asked);
}

/** The shares of the causes, and of two at once, after the strip-downs, by the same rule. */
export function learnedPriors(
  start: readonly number[],
  startTogether: number,
  { cases, together, causes: found }: CauseCounts,
): { readonly causes: readonly number[]; readonly coexistence: number } {
  const total = start.reduce((all, share) => all + share, 0);
  return {
    causes: start.map((share, i) => (startingWeight * (share / total) + (found[i] ?? 0)) / (startingWeight + cases)),
    coexistence: (startingWeight * startTogether + together) / (startingWeight + cases),
  };
}
