import { describe, expect, test } from "vitest";
import type { WearObservations } from "@/lib/projection/observations.ts";
import { priorPool } from "@/lib/projection/priors.ts";
import { worsenings } from "@/lib/projection/worsening.ts";
import { engineModelSchema } from "@/lib/schema/engine-model.ts";

const limits = { watchPercent: 10, planPercent: 20, limitPercent: 30 };
const poolOf = (cylinders: number) => ({
  ...priorPool(engineModelSchema.parse({ id: "m", cylinders, leakDown: limits }), "leak-down", "h"),
  engines: 0,
  tests: 0,
  fingerprint: "prior",
});

const dateOf = (test: number) => `2025-${String(test).padStart(2, "0")}-01`;

/** Tests 200 h and a month apart; each row holds the leakage of all cylinders, %. */
function observed(rows: readonly (readonly number[])[], weight = 1): WearObservations {
  const cylinders = rows[0]?.length ?? 0;
  return {
    measure: "leak-down",
    cylinders,
    sharedLevelVariance: 0,
    segments: Array.from({ length: cylinders }, (_, i) => ({
      cylinder: i + 1,
      current: true,
      begunBy: null,
      usableTests: rows.length,
      ownTests: rows.length,
    })),
    tests: rows.map((badness, t) => ({
      x: 200 * (t + 1),
      date: dateOf(t + 1),
      weight,
      segment: badness.map((_, i) => i),
      badness,
      referralVariance: badness.map(() => 0),
      weights: badness.map(() => weight),
    })),
  };
}

const steps = (rows: readonly (readonly number[])[], weight?: number) =>
  worsenings(observed(rows, weight), poolOf(rows[0]?.length ?? 1));

describe("worsenings", () => {
  const steady = [
    [7, 6, 7, 6],
    [7, 7, 6, 7],
    [8, 7, 7, 7],
    [7, 8, 8, 7],
  ];

  test("two cylinders that step at one test are one event, and bear each other out", () => {
    expect(steps([...steady, [8, 28, 31, 8]])).toEqual([
      { cylinders: [2, 3], afterX: 1000, date: dateOf(5), believed: 0.9, to: "worse" },
    ]);
  });

  test("a second reading that agrees is believed more, from the first of the two on", () => {
    expect(steps([...steady, [8, 22, 8, 8], [8, 25, 8, 8]])).toEqual([
      { cylinders: [2], afterX: 1000, date: dateOf(5), believed: 0.9, to: "worse" },
    ]);
  });

  test("a reading that the next one does not bear out is no event", () => {
    expect(steps([...steady, [8, 28, 8, 8], [8, 8, 8, 8]])).toEqual([]);
  });

  test("all cylinders off together are the test's matter, not an event", () => {
    expect(steps([...steady, [22, 21, 22, 23]])).toEqual([]);
  });

  test("what creeps in a line is left to the trend", () => {
    expect(steps([8, 10, 12, 14, 16, 18].map((v) => [7, v, 7, 7]))).toEqual([]);
  });

  test("a cylinder whose siblings were mended has not stepped itself", () => {
    expect(steps([...[22, 24, 26].map((v) => [v, v, v, 8]), [8, 8, 8, 8]])).toEqual([]);
  });

  test("fewer than three earlier readings say nothing", () => {
    expect(steps([...steady.slice(0, 2), [8, 28, 8, 8]])).toEqual([]);
  });

  test("a reading of little weight is believed as little", () => {
    expect(steps([...steady, [8, 28, 8, 8]], 0.5)[0]?.believed).toBeCloseTo(0.35);
  });

  test("a single cylinder has no siblings: the test's own error counts too", () => {
    const one = (last: number) => steps([[8], [9], [8], [9], [last]]);
    expect(one(15)).toEqual([]);
    expect(one(22)).toHaveLength(1);
  });
});
