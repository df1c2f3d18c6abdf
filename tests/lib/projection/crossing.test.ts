import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../../../demo-data/random.ts";
import {
  aheadGrid,
  crossingDistribution,
  daysQuantile,
  probabilityWithin,
  probabilityWithinDays,
  useQuantile,
} from "../../../lib/projection/crossing.ts";
import type { UseForecast } from "../../../lib/projection/types.ts";
import { branch } from "./branch-given.ts";

const use: UseForecast = { perDay: 4, logSd: 0.2, intervals: 8 };
const horizonDays = 1826;
const ahead = aheadGrid(use, horizonDays);

describe("crossingDistribution", () => {
  it("agrees with simulated paths", () => {
    // Slow twin: draw level and rate, walk the level in small steps and note when the limit is met.
    const b = branch();
    const { wander } = b;
    const distribution = crossingDistribution([b], 30, ahead);
    const random = seededRandom(11);
    const draws = 4000;
    const step = 20;
    const crossedBy = [1500, 3000, 5000, 7000].map((x) => ({ x, count: 0 }));
    for (let i = 0; i < draws; i++) {
      const level = random.normal(b.level, Math.sqrt(b.levelVariance));
      const slope = b.covariance / b.levelVariance;
      const rate = random.normal(b.rate + slope * (level - b.level), Math.sqrt(b.rateVariance - slope * b.covariance));
      let y = level;
      let x = 0;
      while (y < 30 && x < 7000) {
        y += rate * step + random.normal(0, Math.sqrt(wander * step));
        x += step;
      }
      if (y >= 30) for (const at of crossedBy) if (x <= at.x) at.count++;
    }
    for (const { x, count } of crossedBy) {
      // Three standard errors of the simulation, and a hair for its steps.
      const p = count / draws;
      expect(Math.abs(probabilityWithin(distribution, x) - p)).toBeLessThan(
        3 * Math.sqrt((p * (1 - p)) / draws) + 0.012,
      );
    }
  });

  it("is an ordered distribution for any state, and its quantiles ascend", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 60, noNaN: true }),
        fc.double({ min: -0.02, max: 0.05, noNaN: true }),
        fc.double({ min: 0, max: 8, noNaN: true }),
        fc.double({ min: 0, max: 0.02, noNaN: true }),
        fc.double({ min: -0.99, max: 0.99, noNaN: true }),
        fc.double({ min: 0, max: 0.05, noNaN: true }),
        (level, rate, levelSd, rateSd, correlation, wander) => {
          const b = branch({
            level,
            rate,
            levelVariance: levelSd ** 2,
            rateVariance: rateSd ** 2,
            covariance: correlation * levelSd * rateSd,
            wander,
          });
          const d = crossingDistribution([b], 30, ahead);
          let last = 0;
          for (const p of d.probability) {
            expect(p).toBeGreaterThanOrEqual(last);
            expect(p).toBeLessThanOrEqual(1);
            last = p;
          }
          const quantiles = [0.1, 0.5, 0.9].map(
            (p) => daysQuantile(d, use, p, horizonDays) ?? Number.POSITIVE_INFINITY,
          );
          expect(quantiles[0]).toBeLessThanOrEqual(quantiles[1] as number);
          expect(quantiles[1]).toBeLessThanOrEqual(quantiles[2] as number);
          expect(quantiles[0]).toBeGreaterThanOrEqual(0);
        },
      ),
    );
  });

  it("puts what may lie past the limit already at zero use", () => {
    const d = crossingDistribution([branch({ level: 29, levelVariance: 1, covariance: 0 })], 30, ahead);
    expect(d.probability[0]).toBeCloseTo(0.158655254, 8);
  });

  it("on a clock that accelerates, crosses where the clock says", () => {
    // Level 10 now, and 20 to go at 1 for each 1,000 of the clock: (use / 1000)² = 5² + 20.
    const clock = { from: 0, power: 2, unit: 1000 };
    const sure = { level: 10, rate: 0.001, levelVariance: 0, rateVariance: 0, covariance: 0, wander: 0 };
    const d = crossingDistribution(
      [branch({ ...sure, clock })],
      30,
      Float64Array.from({ length: 400 }, (_, i) => 10 * i),
    );
    expect(useQuantile(d, 0.5)).toBeCloseTo(1000 * Math.sqrt(45) - 5000, -1);
  });

  it("mixes branches by their probability", () => {
    const one = crossingDistribution([branch()], 30, ahead);
    const two = crossingDistribution([branch({ level: 5 })], 30, ahead);
    const both = crossingDistribution(
      [branch({ probability: 0.25 }), branch({ level: 5, probability: 0.75 })],
      30,
      ahead,
    );
    for (const [i, p] of both.probability.entries()) {
      expect(p).toBeCloseTo(0.25 * (one.probability[i] ?? 0) + 0.75 * (two.probability[i] ?? 0), 10);
    }
  });

  it("says never where the level falls away from the limit", () => {
    const d = crossingDistribution(
      [branch({ rate: -0.01, rateVariance: 1e-8, covariance: 0, wander: 1e-6 })],
      30,
      ahead,
    );
    expect(useQuantile(d, 0.1)).toBeNull();
    expect(daysQuantile(d, use, 0.1, horizonDays)).toBeNull();
  });
});

describe("dates", () => {
  it("with known use, the day quantile is the use quantile over the use a day", () => {
    const known = { ...use, logSd: 0 };
    const d = crossingDistribution([branch()], 30, aheadGrid(known, horizonDays));
    expect(daysQuantile(d, known, 0.5, horizonDays)).toBe(Math.ceil((useQuantile(d, 0.5) ?? 0) / 4));
  });

  it("uncertain use widens the range of dates", () => {
    const width = (logSd: number) => {
      const u = { ...use, logSd };
      const d = crossingDistribution([branch({ level: 24 })], 30, aheadGrid(u, 3 * horizonDays));
      return (daysQuantile(d, u, 0.9, 3 * horizonDays) ?? 0) - (daysQuantile(d, u, 0.1, 3 * horizonDays) ?? 0);
    };
    expect(width(0.5)).toBeGreaterThan(1.2 * width(0.02));
  });

  it("probability within days rises with the days", () => {
    const d = crossingDistribution([branch()], 30, ahead);
    const days = [0, 100, 365, 1000, 1826].map((n) => probabilityWithinDays(d, use, n));
    expect(days).toEqual([...days].sort((a, b) => a - b));
  });
});
