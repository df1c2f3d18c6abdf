import { describe, expect, test } from "vitest";
import type { TestFact } from "@/lib/schema/facts.ts";
import { engineOf, indexed, reading, repairFact, testFact, unitFact } from "./facts.ts";

const at = { date: "2025-06-01", meter: 2000 };
const compression: Partial<TestFact> = {
  test: "compression-dry",
  readings: [reading({ value: 1200, valueUnit: "kPa" })],
};

function sides(tests: readonly Partial<TestFact>[], repair: Parameters<typeof repairFact>[0] = {}) {
  const history = engineOf(
    indexed({
      units: [unitFact()],
      tests: tests.map((t) => testFact({ ...at, ...t })),
      repairs: [repairFact({ ...at, ...repair })],
    }),
  );
  return history.tests.map((t) => [t.measure, t.attempt, t.instrument, t.repairSameDay]);
}

describe("a test on the day of a repair at its meter reading", () => {
  test("alone found what was repaired, whatever else was measured that day", () => {
    expect(sides([{}, compression])).toEqual([
      ["compression-dry", 1, null, "before"],
      ["leak-down", 1, null, "before"],
    ]);
    expect(sides([{}], { scope: "adjustment" })).toEqual([["leak-down", 1, null, "before"]]);
  });

  test("followed by another attempt: the last one is after the repair, and comes after all from before it", () => {
    const again = [{ ...compression, attempt: 3 }, compression, { ...compression, attempt: 2 }, {}];
    expect(sides(again)).toEqual([
      ["compression-dry", 1, null, "before"],
      ["compression-dry", 2, null, "before"],
      ["leak-down", 1, null, "before"],
      ["compression-dry", 3, null, "after"],
    ]);
  });

  test("made with two instruments: only a time of day tells which was later", () => {
    const two = (a: string | null, b: string | null) =>
      sides([
        { instrument: "A", time: a },
        { instrument: "B", time: b },
      ]).map((side) => side[3]);
    expect(two(null, null)).toEqual(["before", "before"]);
    expect(two("08:10", null)).toEqual(["before", "before"]);
    expect(two("08:10", "15:40")).toEqual(["before", "after"]);
    expect(two("15:40", "08:10")).toEqual(["before", "after"]);
    expect(
      sides([
        { instrument: "A", time: "15:40" },
        { instrument: "B", time: "08:10" },
      ]).map((s) => s[2]),
    ).toEqual(["B", "A"]);
  });

  test("at another meter reading or on another day needs no such rule, nor does a swap", () => {
    expect(sides([{ meter: 2001 }])[0]?.[3]).toBeUndefined();
    expect(sides([{ date: "2025-06-02" }])[0]?.[3]).toBeUndefined();
    expect(sides([{}], { scope: "engine-swap" })[0]?.[3]).toBeUndefined();
  });
});
