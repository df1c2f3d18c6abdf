import { describe, expect, test } from "vitest";
import { conditionEngine } from "@/lib/condition/condition.ts";
import type { RepairFact, TestFact } from "@/lib/schema/facts.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import { lifeAround, limitMet, runningMedians } from "@/lib/track/life.ts";
import { factsOf, repairOf, testOf } from "./made-up-fleet.ts";

const dates = ["2023-01-10", "2023-07-10", "2024-01-10", "2024-07-10", "2025-01-10", "2025-07-10", "2026-01-10"];
/** Cylinder 2 reads the values, its siblings 8 %. */
const course = (values: readonly number[]): TestFact[] =>
  values.map((value, i) => testOf("M-1", dates[i] as string, 1000 + 500 * i, [8, value, 8, 8]));

function lifeFrom(tests: readonly TestFact[], from: number, repairs: readonly RepairFact[] = []) {
  const index = indexFleet(factsOf(tests, { repairs }), { asOf: "2026-06-30" });
  const engine = conditionEngine(index.seal(index.engineKeys[0] as string));
  const seen = engine.tests.find(({ test }) => test.date === dates[from])?.test;
  if (seen === undefined) throw new Error("no such test");
  return lifeAround(engine, "leak-down", 2, seen);
}

describe("running medians of three", () => {
  test("leave out one odd value and follow a step of two", () => {
    expect(runningMedians([8, 9, 40, 10, 11])).toEqual([8, 9, 10, 11, 11]);
    expect(runningMedians([8, 9, 30, 31])).toEqual([8, 9, 30, 31]);
    expect(runningMedians([8, 9, 10, 40])[3]).toBe(12);
    expect(runningMedians([8, 9])).toEqual([8, 9]);
  });
});

describe("when a limit was met", () => {
  test("straight between the last level below it and the first one past it", () => {
    const met = limitMet(lifeFrom(course([10, 14, 18, 22, 26, 30, 34]), 2), 24);
    expect(met?.x).toBeCloseTo(2750, -1);
    expect(met?.date).toBe("2024-10-10");
    expect(met?.days).toBe(274);
  });

  test("one bad reading is no crossing", () => {
    expect(limitMet(lifeFrom(course([10, 11, 12, 33, 13, 14]), 2), 24)).toBeNull();
    expect(limitMet(lifeFrom(course([10, 11, 12, 12, 13, 33]), 2), 24)).toBeNull();
  });

  test("but one that a repair followed is", () => {
    const tests = course([10, 11, 12, 12, 13, 33]);
    const repairs = [repairOf("M-1", "2025-08-01", 3600)];
    const life = lifeFrom(tests, 2, repairs);
    expect(life.endedBy).toBe("repair");
    expect(limitMet(life, 24)?.x).toBeGreaterThan(3000);
  });

  test("met at the test itself counts as at once", () => {
    expect(limitMet(lifeFrom(course([10, 14, 26, 27, 28]), 2), 24)).toMatchObject({ x: 2000, days: 0 });
  });
});

describe("a life", () => {
  const tests = course([10, 14, 18, 6, 7, 8, 9]);

  test("ends with a repair of the cylinder, and a new one begins", () => {
    const repairs = [repairOf("M-1", "2024-03-01", 2100, { scope: "top-end", cylinders: [2] })];
    expect(lifeFrom(tests, 1, repairs)).toMatchObject({ endedBy: "repair", at: 1 });
    expect(lifeFrom(tests, 1, repairs).readings.map((r) => Math.round(r.badness))).toEqual([10, 14, 18]);
    expect(lifeFrom(tests, 4, repairs)).toMatchObject({ endedBy: "last-test", at: 1 });
  });

  test("runs on through a repair of another cylinder", () => {
    const repairs = [repairOf("M-1", "2024-03-01", 2100, { scope: "top-end", cylinders: [3] })];
    expect(lifeFrom(course([10, 12, 14, 16, 18, 20, 22]), 1, repairs).readings).toHaveLength(7);
  });
});
