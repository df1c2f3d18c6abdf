import { describe, expect, test } from "vitest";
import { addDays } from "@/lib/calendar.ts";
import { poolEngine, withLikelyStarts } from "@/lib/projection/fit-common.ts";
import type { WearObservations } from "@/lib/projection/observations.ts";
import { fitPool, fitWearPool } from "@/lib/projection/pool.ts";
import { wearStart } from "@/lib/projection/priors.ts";
import { plainScale } from "@/lib/projection/scale.ts";
import { seededRandom } from "../../../demo-data/random.ts";
import { petrol4 } from "../cause/engines.ts";

interface Truth {
  readonly cylinders: number;
  readonly ownLevelSd: number;
  readonly power: number;
  readonly testSd: number;
  readonly wander: number;
}

const usual: Truth = { cylinders: 4, ownLevelSd: 2, power: 1, testSd: 1.5, wander: 0 };

/** Engines on the plain scale, tested twelve times 500 h apart: 6 to 12 at first and 2 points more by 2,000 h. */
function simulated(engines: number, truth: Partial<Truth>, seed: number) {
  const { cylinders, ownLevelSd, power, testSd, wander } = { ...usual, ...truth };
  const random = seededRandom(seed);
  return Array.from({ length: engines }, (_, e) => {
    const own = Array.from({ length: cylinders }, () => random.normal(0, ownLevelSd));
    const base = random.between(6, 12);
    const rate = random.between(0.0006, 0.0014);
    const strayed = own.map(() => 0);
    const observations: WearObservations = {
      measure: "leak-down",
      cylinders,
      origin: 0,
      originKnown: true,
      neighbours: [],
      sharedLevelVariance: 0,
      segments: own.map((_, i) => ({ cylinder: i + 1, current: true, begunBy: null, usableTests: 12, ownTests: 12 })),
      tests: Array.from({ length: 12 }, (_, t) => {
        const shared = random.normal(0, testSd);
        const x = 500 * (t + 1);
        return {
          x,
          date: addDays("2024-01-01", 100 * t),
          weight: 1,
          segment: own.map((_, i) => i),
          badness: own.map((level, c) => {
            strayed[c] = (strayed[c] as number) + random.normal(0, Math.sqrt(500 * wander));
            const worn = rate * 2000 * (x / 2000) ** power;
            return base + level + worn + (strayed[c] as number) + shared + random.normal(0, 1);
          }),
          referralVariance: own.map(() => 0),
          roundingVariance: own.map(() => 0),
          weights: own.map(() => 1),
          heard: own.map(() => 0),
          ruled: own.map(() => null),
          spoilt: own.map(() => 0.05),
        };
      }),
    };
    return { key: `E-${e}`, observations };
  });
}

const start = { ...wearStart(petrol4, "leak-down", "h"), scale: plainScale, error: { readingSd: 1, readingShare: 0 } };
const fitted = (engines: number, truth: Partial<Truth>, seed: number) =>
  fitPool(start, simulated(engines, truth, seed));

describe("fitPool", () => {
  test.each([2, 4, 8])("finds the spread of %i cylinders about their engine and the error of a test", (cylinders) => {
    const pool = fitted(120, { cylinders }, 7);
    // About the mean of its siblings and itself a cylinder spreads by √(1 − 1/n) of what it does about the engine.
    const beside = 2 * Math.sqrt(1 - 1 / cylinders);
    expect(pool.shapes[0]?.ownLevelSd).toBeGreaterThan(0.85 * beside);
    expect(pool.shapes[0]?.ownLevelSd).toBeLessThan(1.15 * beside);
    expect(pool.testSd).toBeGreaterThan(1.2);
    expect(pool.testSd).toBeLessThan(1.8);
  });

  test.each([
    [0.7, 0.7],
    [1, 1],
    [2, 2],
    [2.6, 2.6],
  ])("tells wear of the power %f from other shapes", (power, expected) => {
    const { shapes } = fitted(60, { power }, 11);
    expect(shapes[0]?.power).toBe(expected);
    expect(shapes.reduce((sum, shape) => sum + shape.weight, 0)).toBeCloseTo(1, 10);
  });

  test("tells wear that wanders from wear that does not", () => {
    const wander = (truth: number) => fitted(60, { wander: truth }, 13).shapes[0]?.ownWander ?? 0;
    // Three quarters of it are beside the mean of four.
    expect(wander(0.002)).toBeGreaterThan(0.0008);
    expect(wander(0.002)).toBeLessThan(0.002);
    expect(wander(0)).toBeLessThan(0.0002);
  });

  test("learns an error far from where it began", () => {
    expect(fitted(60, { testSd: 0.3 }, 17).testSd).toBeLessThan(0.5);
    expect(fitted(60, { testSd: 5 }, 17).testSd).toBeGreaterThan(3.5);
  });
});

describe("fitWearPool", () => {
  test("is the same whatever the order of the engines, and where it began where there are none", () => {
    const engines = simulated(12, {}, 3);
    expect(fitWearPool(petrol4, "leak-down", "h", engines.toReversed())).toEqual(
      fitWearPool(petrol4, "leak-down", "h", engines),
    );
    const none = fitWearPool(petrol4, "leak-down", "h", []);
    expect([none.engines, none.tests]).toEqual([0, 0]);
    const began = wearStart(petrol4, "leak-down", "h");
    for (const shape of none.shapes) {
      expect([shape.levelMean, shape.rateMean, shape.testSd]).toEqual([began.levelMean, began.rateMean, began.testSd]);
    }
  });
});

describe("where lives began", () => {
  const start = wearStart(petrol4, "leak-down", "h");
  const engines = (more: Partial<WearObservations>, firstX: number) =>
    simulated(8, {}, 5).map(({ observations }) => {
      const tests = observations.tests.map((test) => ({ ...test, x: test.x + firstX }));
      return poolEngine(start, { ...observations, ...more, tests });
    });

  test("is found by steps, one for each place that is tried, so that nobody waits for it", () => {
    const late = engines({ originKnown: false }, 40_000);
    const steps = withLikelyStarts(start, late, 6000);
    let count = 0;
    let step = steps.next();
    for (; !step.done; step = steps.next()) count += 1;
    // Six numbers, each tried until its step is small: thrice at least.
    expect(count).toBeGreaterThanOrEqual(18);
    expect(step.value.map(({ from }) => from)).not.toEqual(late.map(({ from }) => from));
  });

  test("is not looked for where it is on file", () => {
    const known = engines({ originKnown: true }, 40_000);
    expect(withLikelyStarts(start, known, 6000).next()).toEqual({ done: true, value: known });
  });
});
