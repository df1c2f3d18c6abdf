import { describe, expect, test } from "vitest";
import { addDays } from "@/lib/calendar.ts";
import type { WearObservations } from "@/lib/projection/observations.ts";
import { fitWearPool } from "@/lib/projection/pool.ts";
import { seededRandom } from "../../../demo-data/random.ts";
import { petrol4 } from "../cause/engines.ts";

/** Engines whose cylinders stand about their engine's level with a known spread, tested six times 500 h apart. */
function simulated(engines: number, cylinders: number, cylinderLevelSd: number, seed: number) {
  const random = seededRandom(seed);
  return Array.from({ length: engines }, (_, e) => {
    const own = Array.from({ length: cylinders }, () => random.normal(0, cylinderLevelSd));
    const base = random.between(6, 12);
    const observations: WearObservations = {
      measure: "leak-down",
      cylinders,
      sharedLevelVariance: 0,
      segments: own.map((_, i) => ({ cylinder: i + 1, current: true, begunBy: null, usableTests: 6, ownTests: 6 })),
      tests: Array.from({ length: 6 }, (_, t) => {
        const shared = random.normal(0, 1.5);
        return {
          x: 500 * t,
          date: addDays("2024-01-01", 100 * t),
          weight: 1,
          segment: own.map((_, i) => i),
          badness: own.map((level) => base + level + 0.75 * t + shared + random.normal(0, 1)),
          referralVariance: own.map(() => 0),
          weights: own.map(() => 1),
        };
      }),
    };
    return { key: `E-${e}`, observations };
  });
}

describe("fitWearPool", () => {
  test.each([2, 4, 8])("finds the spread of %i cylinders about their engine, not that about their own mean", (n) => {
    const { cylinderLevelSd, testSd } = fitWearPool(petrol4, "leak-down", "h", simulated(200, n, 2, 7));
    expect(cylinderLevelSd).toBeGreaterThan(1.8);
    expect(cylinderLevelSd).toBeLessThan(2.2);
    expect(testSd).toBeGreaterThan(1.2);
    expect(testSd).toBeLessThan(1.8);
  });

  test("is the same whatever the order of the engines, and the prior where there are none", () => {
    const engines = simulated(12, 4, 1.5, 3);
    expect(fitWearPool(petrol4, "leak-down", "h", engines.toReversed())).toEqual(
      fitWearPool(petrol4, "leak-down", "h", engines),
    );
    expect(fitWearPool(petrol4, "leak-down", "h", []).engines).toBe(0);
  });
});
