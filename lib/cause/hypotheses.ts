import { type Cause, causes } from "../schema/words.ts";
import type { EvidenceRow } from "./evidence-row.ts";
import { causeBit } from "./words.ts";

/** One cause alone, or two at once, by their places in `causes`. */
export type Hypothesis = readonly [number] | readonly [number, number];

const setUp = causes.indexOf("test-set-up");

/**
 * Every cause alone, in the order of `causes`, then every two real ones together. A fault of the test stands alone: it
 * would be in the reading, not in the engine.
 */
export const hypotheses: readonly Hypothesis[] = [
  ...causes.map((_, i) => [i] as const),
  ...causes.flatMap((_, i) => causes.flatMap((_, j) => (i < j && i !== setUp && j !== setUp ? [[i, j] as const] : []))),
];

export const causesOf = (hypothesis: Hypothesis): readonly Cause[] => hypothesis.map((i) => causes[i] as Cause);

/** The causes of each hypothesis as a set of bits. */
export const hypothesisBits: readonly number[] = hypotheses.map((one) =>
  causesOf(one).reduce((set, cause) => set | causeBit(cause), 0),
);

/**
 * P(finding | two causes at once) from its likelihoods under each alone. A `sight` by the leaky noisy-or: each cause shows
 * it by itself, over the background that the row has anyway (its lowest likelihood, which must not count twice). An
 * `absence` by the same rule for its opposite: neither may upset it. Source: Pearl, Probabilistic Reasoning in Intelligent
 * Systems (1988), section 4.3; the leak by Henrion, in Uncertainty in Artificial Intelligence 3 (1989).
 */
export function togetherLikelihood(
  kind: EvidenceRow["kind"],
  likelihoods: readonly number[],
  a: number,
  b: number,
): number {
  const [first, second] = [likelihoods[a] ?? 0, likelihoods[b] ?? 0];
  if (kind === "absence") return (first * second) / Math.max(...likelihoods);
  const background = Math.min(...likelihoods);
  return background >= 1 ? 1 : 1 - ((1 - first) * (1 - second)) / (1 - background);
}
