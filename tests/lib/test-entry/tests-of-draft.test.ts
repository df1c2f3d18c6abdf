import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { testDraftSchema } from "@/lib/schema/test-draft.ts";
import { setUpQuestions, setUpRemark } from "@/lib/test-entry/set-up.ts";
import { attemptsOnFile, testsOfDraft } from "@/lib/test-entry/tests-of-draft.ts";
import { draftOf, nothingTold, readingOf } from "./made-up.ts";

describe("the tests of a sheet", () => {
  it("keep the order of testing, and give the second reading of a cylinder to the next attempt", () => {
    const draft = draftOf({
      readings: [readingOf(3, 900), readingOf(1, 1100), readingOf(3, 1080), readingOf(2, 1090)],
    });
    const [first, again, ...more] = testsOfDraft(draft, { onFile: 0 });
    expect(more).toEqual([]);
    expect(first?.attempt).toBe(1);
    expect(first?.readings.map(({ cylinder, value, order }) => [cylinder, value, order])).toEqual([
      [1, 1100, 2],
      [2, 1090, 3],
      [3, 900, 1],
    ]);
    expect(again?.attempt).toBe(2);
    expect(again?.readings.map(({ cylinder, value, order }) => [cylinder, value, order])).toEqual([[3, 1080, 1]]);
  });

  it("count on from the attempts on file of the same unit, day, kind and instrument", () => {
    const draft = draftOf({ readings: [readingOf(1, 1100)] });
    const same = { unit: "V-1", date: draft.date, test: draft.test, instrument: null, attempt: 2 };
    const others = [
      { ...same, unit: "V-2", attempt: 7 },
      { ...same, date: "2026-06-19", attempt: 7 },
      { ...same, test: "leak-down" as const, attempt: 7 },
      { ...same, instrument: "gauge 4", attempt: 7 },
    ];
    expect(attemptsOnFile(draft, others)).toBe(0);
    expect(attemptsOnFile(draft, [...others, same])).toBe(2);
    expect(testsOfDraft(draft, { onFile: 2 })[0]?.attempt).toBe(3);
  });

  it("what was skipped is null, and what has no column stands in the remarks of the first reading", () => {
    const draft = draftOf({
      remarks: "slow\nstarter",
      setUp: { ...nothingTold, warm: true, throttleOpen: false, batterySupported: true },
      readings: [readingOf(2, 1000, { asked: ["Far from the last test."] }), readingOf(1, 1010, { remarks: "hiss" })],
    });
    const [test] = testsOfDraft(draft, { onFile: 0 });
    expect(test).toMatchObject({ warm: true, throttleOpen: false, allPlugsOut: null, tdcConfirmed: null });
    expect(test?.readings.map(({ remarks }) => remarks)).toEqual([
      "hiss",
      "Set-up: battery supported: yes; fuel and ignition disabled: not confirmed. slow starter Asked at entry: Far from the last test. Kept as read.",
    ]);
  });

  it("a leak-down test carries supply, bore and places, and no first stroke", () => {
    const draft = draftOf({
      test: "leak-down",
      valueUnit: "%",
      supply: 550,
      orificeMm: 1,
      readings: [readingOf(1, 12, { heardAt: ["crankcase", "exhaust"], firstStroke: 4 })],
    });
    const [test] = testsOfDraft(draft, { onFile: 0 });
    expect(test).toMatchObject({ orificeMm: 1, crankingRpm: null });
    expect(test?.readings[0]).toMatchObject({ supply: 550, firstStroke: null, heardAt: ["crankcase", "exhaust"] });
  });

  it("the longest sheet that may be sent still fits into the cells of a row", () => {
    const text = "x".repeat(1_000);
    const draft = draftOf({
      remarks: text,
      readings: [readingOf(1, 12, { remarks: text, asked: Array.from({ length: 5 }, () => "y".repeat(300)) })],
    });
    expect(testDraftSchema.safeParse(draft).success).toBe(true);
    expect(testsOfDraft(draft, { onFile: 0 })[0]?.readings[0]?.remarks?.length).toBeLessThanOrEqual(4_000);
  });

  it("no reading is lost or told twice, whatever the order", () => {
    const readings = fc.array(
      fc.record({ cylinder: fc.integer({ min: 1, max: 6 }), value: fc.integer({ min: 300, max: 1300 }) }),
      { minLength: 1, maxLength: 20 },
    );
    fc.assert(
      fc.property(readings, (taken) => {
        const draft = draftOf({ readings: taken.map(({ cylinder, value }) => readingOf(cylinder, value)) });
        const tests = testsOfDraft(draft, { onFile: 0 });
        for (let cylinder = 1; cylinder <= 6; cylinder++) {
          const told = tests.flatMap((test) => test.readings.filter((r) => r.cylinder === cylinder));
          expect(told.map(({ value }) => value)).toEqual(
            taken.filter((r) => r.cylinder === cylinder).map(({ value }) => value),
          );
        }
        for (const { readings: of } of tests) {
          expect(of.map(({ order }) => order).toSorted((a, b) => (a ?? 0) - (b ?? 0))).toEqual(of.map((_, i) => i + 1));
        }
      }),
    );
  });
});

describe("the questions of the set-up", () => {
  it("a leak-down test asks for top dead centre and a held crankshaft, a compression test for throttle and plugs", () => {
    const ids = (...args: Parameters<typeof setUpQuestions>) => setUpQuestions(...args).map(({ id }) => id);
    expect(ids("leak-down", { fuel: "petrol" })).toEqual([
      "warm",
      "fuelAndIgnitionOff",
      "gaugeZeroed",
      "tdcConfirmed",
      "crankshaftHeld",
    ]);
    expect(ids("compression-dry", { fuel: "petrol" })).toEqual([
      "warm",
      "fuelAndIgnitionOff",
      "allPlugsOut",
      "throttleOpen",
      "batterySupported",
    ]);
    expect(ids("compression-dry", { fuel: "diesel" })).not.toContain("throttleOpen");
    expect(setUpQuestions("compression-dry", { fuel: "diesel" })[2]?.asks).toContain("glow plugs");
  });

  it("the fixed sentence tells yes, no and not confirmed apart", () => {
    expect(setUpRemark("leak-down", { ...nothingTold, crankshaftHeld: false, fuelAndIgnitionOff: true })).toBe(
      "Set-up: fuel and ignition disabled: yes; crankshaft held: no.",
    );
  });
});
