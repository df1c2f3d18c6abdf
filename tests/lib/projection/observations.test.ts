import { describe, expect, test } from "vitest";
import type { Doubt } from "@/lib/condition/types.ts";
import { wearObservations } from "@/lib/projection/observations.ts";
import { type EngineGiven, engine } from "../cause/engines.ts";

const leakDown = (date: string, x: number, readings: readonly number[]) =>
  ({ measure: "leak-down", date, x, readings }) as const;
const observed = (given: EngineGiven) => wearObservations(engine(given), "leak-down");
/** Tests of the cylinder's segments, oldest segment first. */
const perSegment = (given: EngineGiven, cylinder: number) =>
  observed(given)
    .segments.filter((s) => s.cylinder === cylinder)
    .map((s) => s.ownTests);

const before = [leakDown("2025-01-10", 10_000, [8, 8, 8, 8]), leakDown("2025-06-10", 20_000, [9, 24, 9, 9])];
const after = [leakDown("2025-12-10", 30_000, [10, 5, 10, 10])];
const valves = { date: "2025-06-20", x: 20_000, scope: "top-end", cylinders: [2] } as const;
const rings = { date: "2025-06-20", x: 20_000, scope: "bottom-end", cylinders: [1, 2, 3, 4] } as const;

describe("wearObservations", () => {
  test("a top-end repair parts the readings of the cylinders that it names, and of no other", () => {
    const given = { tests: [...before, ...after], repairs: [valves] };
    expect(perSegment(given, 1)).toEqual([3]);
    expect(perSegment(given, 2)).toEqual([2, 1]);
  });

  test("a test made before a repair at the same meter reading belongs to what the repair ended", () => {
    const given = { tests: [...before, leakDown("2025-06-25", 20_000, [9, 5, 9, 9]), ...after], repairs: [valves] };
    expect(perSegment(given, 2)).toEqual([2, 2]);
    expect(observed({ ...given, repairs: [rings] }).tests.map((t) => t.date)).toEqual(["2025-06-25", "2025-12-10"]);
  });

  test("an adjustment begins anew only once a test has followed it", () => {
    const adjustment = { ...valves, scope: "adjustment" } as const;
    expect(perSegment({ tests: before, repairs: [adjustment] }, 2)).toEqual([2]);
    expect(perSegment({ tests: [...before, ...after], repairs: [adjustment] }, 2)).toEqual([2, 1]);
  });

  test("a step is left out where the old course is held, and begins anew where the cylinder is taken for renewed", () => {
    const conditioned = engine({ tests: [...before, ...after] });
    const steps = [{ cylinders: [2], afterX: 30_000, date: "2025-12-10", to: "better" }] as const;
    const held = wearObservations(conditioned, "leak-down", { steps, reading: "held" });
    expect(held.tests.at(-1)?.segment.map((s) => held.segments[s]?.cylinder)).toEqual([1, 3, 4]);
    const renewed = wearObservations(conditioned, "leak-down", { steps, reading: "renewed" });
    expect(renewed.segments.filter((s) => s.cylinder === 2).map((s) => s.begunBy)).toEqual([null, "better"]);
  });

  test("a baseline that no test was made on is none, but for the current one", () => {
    const again = (x: number, date: string) => ({ ...valves, scope: "adjustment", x, date }) as const;
    const repairs = [again(21_000, "2025-07-01"), again(22_000, "2025-08-01"), again(23_000, "2025-09-01")];
    expect(perSegment({ tests: [...before, ...after], repairs }, 2)).toEqual([2, 1]);
    expect(perSegment({ tests: before, repairs: [valves] }, 2)).toEqual([2, 0]);
  });

  test("several instruments of one day are one occasion", () => {
    const tests = ["a", "b", "c"].map(() => leakDown("2025-01-10", 10_000, [18, 18, 18, 18]));
    expect(observed({ tests }).segments.map((s) => s.usableTests)).toEqual([1, 1, 1, 1]);
  });

  test("only what the columns and the instrument say counts as known of a test before it is looked at", () => {
    const spoilt = (code: Doubt["code"], cylinder: number | null = null) => {
      const doubts = [{ code, cylinder, weight: 0.25, words: "made up" }];
      return observed({ tests: [...before, { ...leakDown("2025-08-10", 25_000, [9, 9, 9, 9]), doubts }] }).tests.at(-1)
        ?.spoilt;
    };
    for (const code of ["set-up-not-met", "instrument-off"] as const)
      expect(spoilt(code), code).toEqual([0.75, 0.75, 0.75, 0.75]);
    const fromReadings = [
      "all-cylinders-off",
      "last-of-few",
      "slow-cranking",
      "too-good",
      "row-reversed",
      "not-at-tdc",
      "lifters",
    ] as const;
    for (const code of fromReadings) expect(spoilt(code), code).toEqual([0.05, 0.05, 0.05, 0.05]);
    for (const code of ["few-strokes", "above-siblings"] as const)
      expect(spoilt(code, 4), code).toEqual([0.05, 0.05, 0.05, 0.05]);
  });

  test("readings without weight are left out; little weight counts as no test to rest on", () => {
    const doubtful = { ...leakDown("2025-08-10", 25_000, [9, 9, 9, 9]), weight: 0.1 };
    const spoilt = { ...leakDown("2025-09-10", 26_000, [9, 96, 9, 9]), weight: 0 };
    const { tests, segments } = observed({ tests: [...before, doubtful, spoilt] });
    expect(tests).toHaveLength(3);
    expect(segments.map((s) => s.ownTests)).toEqual([2, 2, 2, 2]);
  });
});
