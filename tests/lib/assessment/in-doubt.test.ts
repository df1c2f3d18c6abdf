import { describe, expect, test } from "vitest";
import { inDoubtSentences, lastReadingsInDoubt } from "@/lib/assessment/in-doubt.ts";
import type { Doubt } from "@/lib/condition/types.ts";
import { engine, type TestGiven } from "../cause/engines.ts";
import { unitFact } from "../sealing/facts.ts";
import { assessedUnit } from "./made-up-fleet.ts";

const { state } = assessedUnit({ units: [unitFact()] });
const inDoubt = (...tests: TestGiven[]) => lastReadingsInDoubt({ ...state, conditioned: engine({ tests }) });

const at = (x: number, changes: Partial<TestGiven> = {}): TestGiven => ({
  measure: "leak-down",
  date: `2026-0${x}-01`,
  x,
  readings: [6, 6, 6, 6],
  ...changes,
});
const cold: Doubt = { code: "set-up-not-met", cylinder: null, weight: 0.25, words: "engine cold" };
const coldTest = { doubts: [cold], weight: 0.25 };
const notAtTdc: Doubt = { code: "not-at-tdc", cylinder: 2, weight: 0, words: "cylinder 2 at 96 %" };

describe("last readings in doubt", () => {
  test("a whole test is one entry", () =>
    expect(inDoubt(at(1), at(2, coldTest))).toEqual([
      { measure: "leak-down", cylinder: null, words: "Last leak-down test, engine cold" },
    ]));

  test("a test after it settles the doubt, one of another measure does not", () => {
    expect(inDoubt(at(1, coldTest), at(2))).toEqual([]);
    const dry = at(2, { measure: "compression-dry", readings: [1200, 1200, 1200, 1200] });
    expect(inDoubt(at(1, coldTest), dry)).toHaveLength(1);
  });

  test("a later test of some cylinders settles theirs alone", () => {
    expect(inDoubt(at(1, coldTest), at(2, { readings: [6, 6, null, null] }))).toHaveLength(1);
    const second = { doubts: [notAtTdc], readings: [6, { value: 96, weight: 0 }, 6, 6] };
    expect(inDoubt(at(1, second), at(2, { readings: [6, null, 6, 6] }))).toEqual([
      { measure: "leak-down", cylinder: 2, words: "Last leak-down test, cylinder 2 at 96 %" },
    ]);
    expect(inDoubt(at(1, second), at(2, { readings: [null, 6, null, null] }))).toEqual([]);
  });

  test("what still counts half is relied on", () => {
    const half: Doubt = { ...cold, weight: 0.5 };
    expect(inDoubt(at(1, { doubts: [half], weight: 0.5 }))).toEqual([]);
    expect(inDoubt(at(1, { doubts: [half], weight: 0.49 }))).toHaveLength(1);
  });

  test("of several doubts about one reading the heaviest is told, of several readings each its own", () => {
    const zero: Doubt = { ...cold, weight: 0, words: "throttle shut" };
    const words = (...doubts: Doubt[]) => inDoubt(at(1, { doubts, weight: 0 })).map((entry) => entry.words);
    expect(words(cold, zero)).toEqual(["Last leak-down test, throttle shut"]);
    expect(words(cold, notAtTdc)).toEqual([
      "Last leak-down test, engine cold",
      "Last leak-down test, cylinder 2 at 96 %",
    ]);
  });

  test("a test that takes back what the one before it found is one entry, at the first of its cylinders", () => {
    const takenBack = { measure: "leak-down" as const, cylinders: [2, 3], words: "cylinders 2 and 3 read 10 and 8 %" };
    const conditioned = engine({ tests: [at(1)], contradictions: [takenBack] });
    expect(lastReadingsInDoubt({ ...state, conditioned })).toEqual([
      { measure: "leak-down", cylinder: 2, words: "Last leak-down test, cylinders 2 and 3 read 10 and 8 %" },
    ]);
  });

  test("a doubt of another cylinder does not speak of this one", () =>
    expect(inDoubt(at(1, { doubts: [notAtTdc], readings: [{ value: 6, weight: 0 }, 6, 6, 6] }))).toEqual([]));

  test("a repeat of the same day and rings that bed in ask for no further test", () => {
    for (const code of ["repeated-the-same-day", "break-in"] as const) {
      expect(inDoubt(at(1, { doubts: [{ ...cold, code, weight: 0 }], weight: 0 }))).toEqual([]);
    }
  });

  test("leak-down is told before compression, and wet compression, never judged, not at all", () => {
    const measured = (measure: TestGiven["measure"]) => at(1, { measure, ...coldTest });
    expect(
      inDoubt(measured("compression-wet"), measured("compression-dry"), measured("leak-down")).map((e) => e.words),
    ).toEqual(["Last leak-down test, engine cold", "Last compression test, engine cold"]);
  });
});

test("each doubt is one sentence with one full stop", () => {
  const entry = (words: string) => ({ measure: "leak-down" as const, cylinder: null, words });
  expect(inDoubtSentences([entry("last test, engine cold"), entry("Valve open?"), entry("Measure again.")])).toBe(
    "Last test, engine cold. Valve open. Measure again.",
  );
  expect(inDoubtSentences([])).toBe("");
});
