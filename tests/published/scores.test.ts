/**
 * Scores of forecasts. Pinball loss: its formula in Gneiting & Raftery 2007 (quantile scores), cases worked by hand; by the
 * same paper's eq. 43 the score of a central interval is 2/alpha times the pinball losses at its two ends, which holds the
 * loss against the interval scores of the same file. Wilson's interval: recomputed by an independent program (7 of 10, at
 * 1e-9). Brier: its definition (Brier 1950), two forecasts worked by hand.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { brierLoss, pinballLoss, wilsonInterval } from "@/lib/statistics/scores.ts";

const scores = JSON.parse(readFileSync(new URL("./data/o_scores.json", import.meta.url), "utf8")) as {
  pinball: { q: number; y: number; tau: number; loss: number }[];
  interval_score: { lower: number; upper: number; y: number; alpha: number; score: number }[];
  coverage: {
    cases_lower_upper_y: [number, number, number][];
    wilson_95: [number, number];
    mean_interval_score: number;
  };
};

test.each(scores.pinball)("pinball loss of $q at $tau where $y came", ({ q, y, tau, loss }) => {
  expect(pinballLoss(q, y, tau)).toBeCloseTo(loss, 9);
});

const intervalScore = (lower: number, upper: number, y: number, alpha: number) =>
  (2 / alpha) * (pinballLoss(lower, y, alpha / 2) + pinballLoss(upper, y, 1 - alpha / 2));

test.each(scores.interval_score)("interval $lower to $upper where $y came", ({ lower, upper, y, alpha, score }) => {
  expect(intervalScore(lower, upper, y, alpha)).toBeCloseTo(score, 9);
});

test("ten intervals", () => {
  const { cases_lower_upper_y: cases, wilson_95: wilson, mean_interval_score: mean } = scores.coverage;
  const losses = cases.map(([lower, upper, y]) => intervalScore(lower, upper, y, 0.2));
  expect(losses.reduce((a, b) => a + b, 0) / cases.length).toBeCloseTo(mean, 9);
  const held = cases.filter(([lower, upper, y]) => y >= lower && y <= upper).length;
  const [low, high] = wilsonInterval(held, cases.length);
  expect(Math.abs(low - wilson[0])).toBeLessThan(1e-9);
  expect(Math.abs(high - wilson[1])).toBeLessThan(1e-9);
});

test("a told probability", () => {
  expect(brierLoss(0.3, true)).toBeCloseTo(0.49, 12);
  expect(brierLoss(0.3, false)).toBeCloseTo(0.09, 12);
});
