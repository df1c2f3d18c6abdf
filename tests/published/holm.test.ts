/**
 * The worked example of Wikipedia's "Holm–Bonferroni method": of four hypotheses with probabilities 0.01, 0.04, 0.03 and
 * 0.005 the fourth and the first are rejected at 0.05, the others are not. By Holm's step-down rule that is 4 × 0.005, then
 * 3 × 0.01, then 2 × 0.03, which the fourth may not fall below.
 */
import { expect, test } from "vitest";
import { holmAdjusted } from "@/lib/statistics/holm.ts";

test("four hypotheses", () => {
  const adjusted = holmAdjusted([0.01, 0.04, 0.03, 0.005]);
  for (const [i, wanted] of [0.03, 0.06, 0.06, 0.02].entries()) expect(adjusted[i]).toBeCloseTo(wanted, 12);
  expect(adjusted.map((p) => p < 0.05)).toEqual([true, false, false, true]);
});
