/**
 * The crossing of the limit once more, by other means: level and rate on a low-discrepancy sequence (Halton 1960; the
 * fixed-seed check of the closed forms and strata in crossing.ts), the wandering by the inverse Gaussian's first passage for
 * each of them.
 */
import { describe, expect, test } from "vitest";
import { clockAt } from "@/lib/projection/clock.ts";
import { crossingDistribution } from "@/lib/projection/crossing.ts";
import type { WearBranch } from "@/lib/projection/types.ts";
import { normalCdf, normalQuantile } from "@/lib/statistics/normal.ts";
import { branch } from "./branch-given.ts";

function halton(index: number, base: number): number {
  let [value, share, i] = [0, 1 / base, index];
  while (i > 0) {
    value += share * (i % base);
    i = Math.floor(i / base);
    share /= base;
  }
  return value;
}

/** P(a Wiener process with drift `v` and variance `w` for each unit meets `d` within `t`): Cox and Miller 1965, 5.7. */
function firstPassage(t: number, d: number, v: number, w: number): number {
  if (d <= 0) return 1;
  if (w === 0) return v * t >= d ? 1 : 0;
  const sd = Math.sqrt(w * t);
  const mirrored = (2 * v * d) / w;
  return normalCdf((v * t - d) / sd) + (mirrored > 500 ? 0 : Math.exp(mirrored) * normalCdf((-v * t - d) / sd));
}

const points = 20_000;

function byHalton(b: WearBranch, limit: number, use: number): number {
  const ahead = clockAt(b.clock, b.now + use) - clockAt(b.clock, b.now);
  const levelSd = Math.sqrt(b.levelVariance);
  const slope = b.covariance / b.levelVariance;
  const rateSd = Math.sqrt(b.rateVariance - slope * b.covariance);
  let sum = 0;
  for (let i = 1; i <= points; i++) {
    const level = b.level + levelSd * normalQuantile(halton(i, 2));
    const rate = b.rate + slope * (level - b.level) + rateSd * normalQuantile(halton(i, 3));
    sum += firstPassage(ahead, limit - level, rate, b.wander);
  }
  return sum / points;
}

describe("P(limit met within so much use)", () => {
  test.each([
    ["even wear", branch()],
    ["hardly any wandering", branch({ wander: 1e-6 })],
    ["much wandering", branch({ wander: 0.004 })],
    ["a rate hardly known", branch({ rateVariance: 0.003 ** 2, covariance: 0 })],
    ["level and rate that go against each other", branch({ covariance: -0.0006 })],
    ["faster and faster", branch({ clock: { from: 0, power: 2, unit: 4000 } })],
    ["ever slower", branch({ clock: { from: 0, power: 0.7, unit: 4000 } })],
    ["a level near the limit", branch({ level: 23.5 })],
  ])("%s", (_, of) => {
    const ahead = Float64Array.from([0, 300, 900, 2000, 4000, 9000]);
    const { probability } = crossingDistribution([of], 24, ahead);
    for (const [i, use] of [...ahead].entries()) {
      if (i === 0) continue;
      // Eight strata of the level are this near, where every level and rate has its own.
      expect(Math.abs((probability[i] as number) - byHalton(of, 24, use)), `${use}`).toBeLessThan(0.012);
    }
  });
});
