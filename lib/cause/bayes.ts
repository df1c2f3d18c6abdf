import type { EvidenceId } from "../schema/evidence-ids.ts";
import { causes } from "../schema/words.ts";
import { keptForTheUnknown } from "./evidence.ts";
import { type Hypothesis, hypotheses, hypothesisBits } from "./hypotheses.ts";
import type { CauseTable } from "./table.ts";
import { causeBit } from "./words.ts";

/** A row of the evidence table seen in one cylinder. */
export interface Finding {
  readonly id: EvidenceId;
  /** Exponent of the row's likelihoods: 0 says nothing, 1 is one clear sight of it, above 1 seen again. */
  readonly strength: number;
  /** What the row's words leave open; numbers are written out only when the finding is told. */
  readonly slots: Readonly<Record<string, string | number>>;
  /** Causes renewed since it was seen. */
  readonly renewed: number;
}

export interface Posterior {
  /** Of each hypothesis, in the order of `hypotheses`; sums to 1. */
  readonly hypotheses: readonly number[];
  /** In the order of `causes`; sums to 1. Two causes at once share theirs by how well each alone explains what was seen. */
  readonly shares: readonly number[];
  /** For each finding its weight of evidence for each cause against all others, a natural log. */
  readonly weights: readonly (readonly number[])[];
}

const setUpBit = causeBit("test-set-up");
const single = causes.length;

/**
 * Bayes' rule over the evidence table with tempered likelihoods: prior × Π likelihood^strength, normalised, over every
 * cause alone and every two at once, and a small part kept at the priors (`keptForTheUnknown`).
 *
 * A finding from before a repair says nothing of the renewed parts nor of the set-up of a later test; what it said for
 * the parts that stayed still holds, but it may not tell against them either: the leak that outshone them is mended.
 *
 * Misleads where findings of different rows hang together more than their strengths allow for; shares are then too
 * sure of themselves. Throws where a strength is negative or not finite. Method: Bayes 1763; tempering as in power
 * posteriors (exponent below 1 for repeated evidence).
 */
export function posterior(findings: readonly Finding[], table: CauseTable): Posterior {
  const logs = table.priors.map(Math.log);
  const weights = findings.map((finding) => {
    const row = table.rows[finding.id];
    if (row === undefined) throw new Error(`no row ${finding.id} in the evidence table`);
    const { strength, renewed } = finding;
    if (!(strength >= 0 && Number.isFinite(strength))) {
      throw new RangeError(`strength ${strength} of ${finding.id} is no exponent`);
    }
    if (renewed === 0) {
      for (let h = 0; h < logs.length; h++) logs[h] = (logs[h] as number) + strength * (row.pulls[h] as number);
      return row.weights.map((weight) => strength * weight);
    }
    const gone = renewed | setUpBit;
    for (let h = 0; h < logs.length; h++) {
      const pull =
        ((hypothesisBits[h] as number) & gone) === 0 ? (row.pulls[h] as number) : pullOfRest(row.pulls, h, gone);
      logs[h] = (logs[h] as number) + strength * Math.max(0, pull);
    }
    return row.weights.map((weight, cause) => ((gone >> cause) & 1 ? 0 : Math.max(0, strength * weight)));
  });
  const alone = normalised(logs.slice(0, single));
  const raw = normalised(logs);
  const mixed = raw.map(
    (value, h) => (1 - keptForTheUnknown) * value + keptForTheUnknown * (table.priors[h] as number),
  );
  const total = mixed.reduce((sum, value) => sum + value, 0);
  const all = mixed.map((value) => value / total);
  return { hypotheses: all, shares: sharesOf(all, alone), weights };
}

/** What a finding says of two causes of which one was renewed: what it says of the other alone. */
function pullOfRest(pulls: readonly number[], h: number, gone: number): number {
  const left = (hypotheses[h] as Hypothesis).find((cause) => ((gone >> cause) & 1) === 0);
  return left === undefined ? 0 : (pulls[left] as number);
}

function sharesOf(all: readonly number[], alone: readonly number[]): readonly number[] {
  const shares = causes.map(() => 0);
  hypotheses.forEach(([a, b], h) => {
    const probability = all[h] as number;
    if (b === undefined) {
      shares[a] = (shares[a] as number) + probability;
      return;
    }
    const [first, second] = [alone[a] as number, alone[b] as number];
    // Both so unlikely alone that nothing is left of either: they share alike.
    const part = first + second > 0 ? first / (first + second) : 0.5;
    shares[a] = (shares[a] as number) + part * probability;
    shares[b] = (shares[b] as number) + (1 - part) * probability;
  });
  const total = shares.reduce((sum, share) => sum + share, 0);
  return shares.map((share) => share / total);
}

/** Probabilities in proportion to the exponentials of `logs`. */
function normalised(logs: readonly number[]): readonly number[] {
  const highest = Math.max(...logs);
  const raw = logs.map((log) => Math.exp(log - highest));
  const total = raw.reduce((sum, value) => sum + value, 0);
  return raw.map((value) => value / total);
}
