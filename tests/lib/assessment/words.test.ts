import { describe, expect, test } from "vitest";
import { standingWords, unitReason, unitTestDue, unitWarnings } from "@/lib/assessment/words.ts";
import { reportUnit } from "@/lib/report.ts";
import type { MeterUnit } from "@/lib/schema/words.ts";
import { checkFact, meterFact, repairFact, unitFact } from "../sealing/facts.ts";
import { cylinder, leakage } from "./documents.ts";
import { assessedUnit, dry, halfYearly, leakDown, petrol4, settings, worn } from "./made-up-fleet.ts";

type Facts = Parameters<typeof assessedUnit>[0];
function inputOf(facts: Facts, asOf?: string) {
  const { assessment, unit, state, xNow, telling, testInterval } = assessedUnit(
    facts,
    asOf === undefined ? {} : { asOf },
  );
  return { unit, state, xNow, telling, testInterval, lastTestDate: assessment.lastTestDate };
}
const warnings = (facts: Facts, asOf?: string) => unitWarnings(inputOf(facts, asOf));
const units = [unitFact()];

describe("when the next test is due", () => {
  // 9,000 km in half a year: the interval of 20,000 km lasts longer than that of 365 days.
  const tests = halfYearly(worn(5, 6, 0));

  test("by days, counted from the last test", () => {
    const due = unitTestDue(inputOf({ units, tests }));
    expect(due).toMatchObject({ overdue: false, dueDate: "2027-06-01" });
    expect(unitTestDue(inputOf({ units, tests }, "2027-06-01")).overdue).toBe(false);
    expect(unitTestDue(inputOf({ units, tests }, "2027-06-02")).overdue).toBe(true);
  });

  test("by use, where the meter runs ahead of the days", () => {
    const run = [...tests].map((t) => ({ ...t, meter: 4 * t.meter }));
    const { overdue, dueDate } = unitTestDue(inputOf({ units, tests: run }));
    expect(overdue).toBe(false);
    // About 197 km a day: 20,000 km are some 100 days.
    expect(dueDate !== null && dueDate > "2026-08-20" && dueDate < "2026-09-20").toBe(true);
    const meterReadings = [meterFact({ date: "2026-06-29", meter: 420_100 })];
    expect(unitTestDue(inputOf({ units, tests: run, meterReadings })).overdue).toBe(true);
  });

  test("counted from the last test that told something, though a later one is kept, not used", () => {
    const shut = { throttleOpen: false };
    const set = dry("2027-05-01", 115_000, [900, 900, 900, 900], shut);
    const input = inputOf({ units, tests: [...tests, set] }, "2027-06-02");
    expect(input.lastTestDate).toBe("2027-05-01");
    expect(unitTestDue(input)).toMatchObject({
      overdue: true,
      dueDate: "2027-06-01",
      words: expect.stringContaining("last usable test 1 Jun 2026"),
    });
    expect(unitTestDue(inputOf({ units, tests: [set] }, "2027-05-02"))).toEqual({
      overdue: true,
      dueDate: "2027-05-02",
      words: "no usable test yet: book a first test as the baseline",
    });
  });

  test("now, where the engine that a swap brought was never tested", () => {
    const swap = repairFact({ scope: "engine-swap", date: "2026-06-10", meter: 100_500 });
    const { words } = unitTestDue(inputOf({ units, tests, repairs: [swap] }));
    expect(words).toBe("this engine was never tested: book a first test as the baseline");
  });

  test("now, where none was ever made; never, where the model has no interval", () => {
    expect(unitTestDue(inputOf({ units }))).toMatchObject({ overdue: true, dueDate: "2026-06-30" });
    const { testInterval: _, ...without } = petrol4;
    expect(unitTestDue(inputOf({ units, tests, models: [without] }, "2029-01-01"))).toMatchObject({
      overdue: false,
      dueDate: null,
    });
  });

  test("by the fleet's interval, where the model has none", () => {
    const { testInterval: _, ...without } = petrol4;
    const facts = { units, tests, models: [without] };
    const given = { asOf: "2029-01-01", settings: { ...settings, testIntervalDays: 400 } };
    const { assessment } = assessedUnit(facts, given);
    expect(assessment.warnings.join()).toContain("interval 400 days");
    expect(reportUnit(assessedUnit(facts, given)).testOverdue).toBe(true);
    expect(reportUnit(assessedUnit(facts, { asOf: given.asOf })).testOverdue).toBe(false);
  });
});

describe("a unit's warnings", () => {
  test("none of a unit well tested", () => expect(warnings({ units, tests: halfYearly(worn(5, 6, 0)) })).toEqual([]));

  test("never tested; overdue", () => {
    expect(warnings({ units })).toEqual(["never tested: book a first test as the baseline"]);
    expect(warnings({ units, tests: halfYearly(worn(5, 6, 0)) }, "2027-07-01")).toEqual([
      expect.stringMatching(/^test overdue: last test 1 Jun 2026, 395 days ago, interval 365 days$/),
    ]);
  });

  test("too few tests for a range, by cylinder", () => {
    expect(warnings({ units, tests: halfYearly(worn(2, 6, 0)) })).toEqual([
      "Fewer than 3 usable tests of one life for cylinders 1 to 4: no range yet",
    ]);
    const third = [6, 6, null, 6];
    expect(warnings({ units, tests: halfYearly([[6, 6, 6, 6], third, third, third]) })).toEqual([
      "Fewer than 3 usable tests of one life for cylinder 3: no range yet",
    ]);
  });

  test("one test of compression beside leak-down tests enough does not take the range away", () => {
    const tests = [...halfYearly(worn(5, 6, 0)), dry("2026-06-01", 100_000, [1200, 1200, 1200, 1200])];
    const told = assessedUnit({ units, tests }).assessment;
    expect(told.repairs.bottomEnd.status).not.toBe("too-few-tests");
    expect(told.warnings).toEqual([]);
  });

  test("tests in doubt by their day, but neither a repeat of the same day nor a break-in", () => {
    const cold = leakDown("2026-06-20", 101_000, [9, 9, 9, 9], { warm: false });
    const repeat = leakDown("2026-06-01", 100_000, [6, 6, 6, 6], { attempt: 2 });
    const tests = halfYearly(worn(5, 6, 0));
    expect(warnings({ units, tests: [...tests, repeat] })).toEqual([]);
    expect(warnings({ units, tests: [...tests, repeat, cold] })).toEqual([
      "Test of 20 Jun 2026: engine cold: reads worse than it is, hardly used",
    ]);
    const newRings = tests.map((t, i) => ({ ...t, meter: 1000 + 9000 * i }));
    const { state } = inputOf({ units, tests: newRings });
    expect(state.conditioned.tests[0]?.doubts[0]?.code).toBe("break-in");
    expect(warnings({ units, tests: newRings })).toEqual([]);
  });

  test("what is doubtful in the history comes first, a planned disposal, past or to come, last", () => {
    const tests = halfYearly(worn(2, 6, 0));
    const facts = {
      tests,
      units: [unitFact({ meterUnit: null, engineModel: "petrol-9", disposalDate: "2026-06-30" })],
    };
    const named = { ...facts, tests: tests.map((t) => ({ ...t, engineModel: "petrol-4-a" })) };
    expect(warnings(named)).toEqual([
      "Rows also name engine model petrol-9: petrol-4-a is used.",
      expect.stringContaining("Fewer than 3 usable tests"),
      "Planned for disposal on 30 Jun 2026, which has passed, and the unit is not retired: retire it if it is gone, else give its new date; until then it is forecast as if it stayed",
    ]);
    const retired = { ...named, units: facts.units.map((unit) => ({ ...unit, status: "retired" as const })) };
    expect(warnings(retired).at(-1)).toBe("Planned for disposal on 30 Jun 2026");
    expect(warnings(named, "2026-06-29").at(-1)).toBe("Planned for disposal on 30 Jun 2026");
  });

  test("checks alone are no test", () =>
    expect(warnings({ units, checks: [checkFact({ meter: 1000 })] })).toEqual([
      "never tested: book a first test as the baseline",
    ]));
});

describe("standing", () => {
  const telling = (yearly: number) => ({
    ...inputOf({ units }).telling,
    use: { perDay: yearly / 365, logSd: 0.1, intervals: 3 },
  });

  test.each<[MeterUnit, number]>([
    ["h", 100],
    ["km", 4000],
    ["mi", 2500],
  ])("in %s it is told below %d a year, of a unit that does not seal well", (unit, limit) => {
    expect(standingWords("watch", telling(limit + 1), unit)).toBeNull();
    expect(standingWords("watch", telling(limit - 10), unit)).toMatch(
      new RegExp(`^Works only about [\\d,]+ ${unit} a year: standing may have done more damage than wear`),
    );
    expect(standingWords("past-limit", telling(limit - 10), unit)).not.toBeNull();
    expect(standingWords("sound", telling(limit - 10), unit)).toBeNull();
    expect(standingWords(null, telling(limit - 10), unit)).toBeNull();
  });
});

describe("why a unit has its band", () => {
  const engineWith = (...repairs: ReturnType<typeof repairFact>[]) => {
    const { unit, state } = assessedUnit({ units, repairs });
    return { unit: unit.unit, history: state.conditioned.history };
  };
  const of = (number: number, band: "watch" | "sound", reason: string) => ({
    ...cylinder(number, [leakage(6, { band })]),
    reason,
  });

  test("cylinders that share a reason are told together, those of a better band not at all", () =>
    expect(
      unitReason(
        [of(1, "watch", "a"), of(2, "watch", "b"), of(3, "sound", "c"), of(4, "watch", "a")],
        "watch",
        engineWith(),
      ),
    ).toBe("cylinders 1 and 4: a; cylinder 2: b"));

  test("without a band: never tested, the unit or its present engine, or no reading used, since a repair or at all", () => {
    const untested = [cylinder(1, []), cylinder(2, [])];
    const unused = [cylinder(1, []), cylinder(2, [leakage(null)])];
    const adjusted = engineWith(repairFact({ scope: "adjustment" }));
    const repaired = engineWith(repairFact({ scope: "top-end" }));
    expect(unitReason(untested, null, engineWith())).toBe("never tested");
    expect(unitReason(untested, null, engineWith(repairFact({ scope: "engine-swap" })))).toBe(
      "this engine was never tested",
    );
    expect(unitReason(unused, null, engineWith())).toBe("no usable test yet");
    expect(unitReason(unused, null, adjusted)).toBe("no usable test yet");
    expect(unitReason(unused, null, repaired)).toBe("no usable test since the last repair");
  });
});
