import type { Cause } from "../schema/words.ts";
import { causesOf, hypotheses } from "./hypotheses.ts";

/** Two causes that may act at once in one cylinder. */
export interface TwoCauses {
  readonly causes: readonly Cause[];
  /** That just these two do. */
  readonly probability: number;
}

/** Two at once are told from this probability on; below it they are one doubt among many. */
const worthTelling = 0.25;

/** The likeliest two causes at once; null: none is likely enough to be told. */
export function twoCauses(probabilities: readonly number[]): TwoCauses | null {
  let best: TwoCauses | null = null;
  hypotheses.forEach((hypothesis, h) => {
    const probability = probabilities[h] ?? 0;
    if (hypothesis.length === 1 || probability < worthTelling || probability <= (best?.probability ?? 0)) return;
    best = { causes: causesOf(hypothesis), probability };
  });
  return best;
}
