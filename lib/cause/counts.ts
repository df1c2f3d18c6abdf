import type { EvidenceId } from "../schema/evidence-ids.ts";
import { causes } from "../schema/words.ts";

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
  readonly rows: Readonly<
    Partial<Record<EvidenceId, { readonly asked: readonly number[]; readonly seen: readonly number[] }>>
  >;
}

export const noCounts: CauseCounts = { cases: 0, together: 0, causes: causes.map(() => 0), rows: {} };

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
  const total = start.reduce((sum, share) => sum + share, 0);
  return {
    causes: start.map((share, i) => (startingWeight * (share / total) + (found[i] ?? 0)) / (startingWeight + cases)),
    coexistence: (startingWeight * startTogether + together) / (startingWeight + cases),
  };
}
