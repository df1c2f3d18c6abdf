import { describe, expect, test } from "vitest";
import { isBreakingIn } from "@/lib/condition/break-in.ts";
import { conditioned, engineHistory, every10000, type TestGiven } from "./histories.ts";

const flat = [7, 7, 7, 7];
const later = every10000([flat, flat, flat]);
const weightsOf = (tests: readonly TestGiven[], fromX: number, repairs = {}) =>
  conditioned({ tests, fromX, ...repairs }).tests.map((t) => t.weights);

describe("break-in", () => {
  test("an early test of a new engine is not used once three later ones are there", () => {
    const { tests } = conditioned({ fromX: 0, tests: [{ x: 3000, values: [12, 12, 12, 12] }, ...later] });
    expect(tests[0]?.weights).toEqual([0, 0, 0, 0]);
    expect(tests[0]?.doubts[0]).toMatchObject({ code: "break-in", cylinder: null, weight: 0 });
    expect(tests[0]?.doubts[0]?.words).toContain("5,000 km");
    expect(tests.slice(1).every((t) => t.doubts.length === 0)).toBe(true);
  });

  test("with two later ones it still counts; so does a test at 5,000 km exactly, and one of an engine of unknown past", () => {
    expect(weightsOf([{ x: 3000, values: flat }, ...later.slice(1)], 0)[0]).toEqual([1, 1, 1, 1]);
    expect(weightsOf([{ x: 5000, values: flat }, ...later], 0)[0]).toEqual([1, 1, 1, 1]);
    expect(weightsOf([{ x: 41_000, values: flat }, ...later], 40_000)[0]).toEqual([1, 1, 1, 1]);
  });

  test("after a bottom-end repair it concerns the cylinders that the repair names; after a top-end repair none", () => {
    const tests = [{ x: 42_000, values: flat }, ...later];
    const repaired = (scope: "bottom-end" | "top-end" | "complete") =>
      weightsOf(tests, 20_000, { repairs: [{ x: 41_000, scope, cylinders: [2] }] })[0];
    expect(repaired("bottom-end")).toEqual([1, 0, 1, 1]);
    expect(repaired("complete")).toEqual([1, 0, 1, 1]);
    expect(repaired("top-end")).toEqual([1, 1, 1, 1]);
  });

  test("rings bed in after their repair, though a test of that day and meter came before it", () => {
    const at = { x: 41_000, date: "2024-01-01" };
    const tests = [{ ...at, values: flat, repairSameDay: "before" } as const, { x: 42_000, values: flat }, ...later];
    const weights = weightsOf(tests, 20_000, { repairs: [{ ...at, scope: "bottom-end" }] });
    expect(weights.slice(0, 2)).toEqual([
      [1, 1, 1, 1],
      [0, 0, 0, 0],
    ]);
  });

  test("doubted tests do not count among the three", () => {
    const tests = [{ x: 3000, values: flat }, ...later.slice(1), { x: 90_000, values: flat, setUp: { warm: false } }];
    expect(weightsOf(tests, 0)[0]).toEqual([1, 1, 1, 1]);
  });
});

test("isBreakingIn goes by the meter unit", () => {
  const history = engineHistory({ meterUnit: "h", fromX: 0 });
  expect(isBreakingIn(history, 1, 99)).toBe(true);
  expect(isBreakingIn(history, 1, 100)).toBe(false);
  expect(isBreakingIn(engineHistory({ meterUnit: "mi", fromX: 0 }), 1, 3106)).toBe(true);
});
