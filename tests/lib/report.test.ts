import { describe, expect, test } from "vitest";
import { addMonths } from "@/lib/calendar.ts";
import { reportUnit } from "@/lib/report.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import { assessedUnit, dry, halfYearly, leakDown, worn } from "./assessment/made-up-fleet.ts";
import { meterFact, repairFact, unitFact } from "./sealing/facts.ts";

const units = [unitFact()];
const report = (...given: Parameters<typeof assessedUnit>): UnitReport => reportUnit(assessedUnit(...given));
const flat = halfYearly(worn(5, 6, 0));
/** 3 points each half year, now at 27 of 30 %, all air heard at the crankcase. */
const wearing = halfYearly(worn(6, 12, 3)).map((t) => ({
  ...t,
  readings: t.readings.map((r) => ({ ...r, heardAt: ["crankcase"] as const })),
}));

describe("what the forecast rests on", () => {
  const engineModel = "petrol-4-a";
  const sister = (unit: string) => halfYearly(worn(4, 6, 1), { unit, engineModel });

  test("sisters are the other engines of the pool", () => {
    const howSure = (...sisters: string[]) => report({ units, tests: [...flat, ...sisters.flatMap(sister)] }).howSure;
    expect(howSure()).toBe("Based on 5 tests of this engine.");
    expect(howSure("V-2")).toMatch(/^(A range .+ )?Based on 5 tests of this engine and 1 sister engine\.$/);
    expect(howSure("V-2", "V-3")).toContain("5 tests of this engine and 2 sister engines.");
  });

  test("an engine never tested is not one of those that were", () => {
    const howSure = (...sisters: string[]) => report({ units, tests: sisters.flatMap(sister) }).howSure;
    expect(howSure()).toBe("No test of this engine yet, nor of a sister engine.");
    expect(howSure("V-2")).toContain("1 sister engine was tested");
    expect(howSure("V-2", "V-3")).toContain("2 sister engines were tested");
  });

  test("sisters count where the fleet is tested by compression alone", () => {
    const compression = (unit: string) =>
      flat.map((t) => dry(t.date, t.meter, [1200, 1210, 1200, 1210], { unit, engineModel }));
    const tests = ["V-101", "V-2", "V-3"].flatMap(compression);
    expect(report({ units, tests }).howSure).toContain("5 tests of this engine and 2 sister engines.");
  });

  test("an engine whose tests are all from before its overhaul is none of the pool's either", () => {
    const repairs = [repairFact({ date: "2026-06-20", meter: 101_000, scope: "complete" })];
    expect(report({ units, tests: [...flat, ...sister("V-2")], repairs }).howSure).toContain("1 sister engine.");
  });

  test("tests set aside are told apart from those used", () => {
    const shut = dry("2026-06-20", 101_000, [900, 900, 900, 900], { throttleOpen: false });
    expect(report({ units, tests: [...flat, shut] }).howSure).toMatch(
      /Based on 5 tests of this engine\. 1 more is kept but not used\.$/,
    );
  });
});

describe("the chance to be past a limit, month by month", () => {
  test("begins today, never falls, and ends with the horizon", () => {
    const { pastLimit, assessment } = report({ units, tests: wearing });
    expect(pastLimit.map((m) => m.date)).toEqual(Array.from({ length: 61 }, (_, i) => addMonths("2026-06-30", i)));
    for (const side of ["topEnd", "bottomEnd"] as const) {
      const chances = pastLimit.map((m) => m[side]);
      expect(chances).toEqual(chances.toSorted((a, b) => a - b));
      expect(chances.every((p) => p >= 0 && p <= 1)).toBe(true);
      // A year has 365 days here and in the window.
      expect(chances[12]).toBe(assessment.repairs[side].probabilityWithinYear);
    }
    expect(pastLimit[12]?.bottomEnd).toBeGreaterThan(0.1);
    expect(pastLimit[12]?.bottomEnd).toBeGreaterThan(pastLimit[12]?.topEnd ?? 1);
  });

  test("passes one half in the month of the likely date", () => {
    const { pastLimit, assessment } = report({ units, tests: wearing });
    const likely = assessment.repairs.bottomEnd.date.p50 ?? "";
    const first = pastLimit.find((m) => m.bottomEnd >= 0.5)?.date ?? "";
    expect(first >= likely && addMonths(first, -1) < likely).toBe(true);
  });

  test("is told as far as the horizon is set, and not at all with too few tests", () => {
    expect(report({ units, tests: wearing }, { horizonYears: 1 }).pastLimit).toHaveLength(13);
    expect(report({ units, tests: wearing.slice(-2) }).pastLimit).toEqual([]);
    expect(report({ units }).pastLimit).toEqual([]);
  });
});

describe("what a unit's page shows", () => {
  test("facts of the unit go through as they are", () => {
    const known = [unitFact({ depot: "Lowmarsh", class: "van", status: "stopped" })];
    expect(report({ units: known, tests: flat })).toMatchObject({
      asOf: "2026-06-30",
      depot: "Lowmarsh",
      unitClass: "van",
      status: "stopped",
      model: { id: "petrol-4-a" },
    });
  });

  test("the next test is due by the model's interval, and overdue after it", () => {
    expect(report({ units, tests: flat })).toMatchObject({ testOverdue: false, nextTestDue: "2027-06-01" });
    expect(report({ units, tests: flat }, { asOf: "2027-06-02" }).testOverdue).toBe(true);
  });

  test("the axis is called the meter only where it is what the meter reads", () => {
    expect(report({ units, tests: flat }).axisIsMeter).toBe(true);
    const meterReadings = [meterFact({ date: "2026-06-20", meter: 0, meterReset: true })];
    expect(report({ units, tests: flat, meterReadings }).axisIsMeter).toBe(false);
    const engineSerial = "E-7";
    const brought = [
      leakDown("2024-06-01", 50_000, [6, 6, 6, 6], { unit: "V-100", engineSerial }),
      leakDown("2026-03-01", 5000, [7, 7, 7, 7], { engineSerial }),
    ];
    expect(report({ units: [unitFact({ unit: "V-100" }), ...units], tests: brought }).axisIsMeter).toBe(false);
  });

  test("the axis holds today and every chart's points", () => {
    const { datesOnAxis, xNow, charts } = report({ units, tests: wearing });
    expect(datesOnAxis).toContainEqual({ x: xNow, date: "2026-06-30" });
    for (const { x, date } of charts.flatMap((c) => c.cylinders.flatMap((s) => s.points))) {
      expect(datesOnAxis).toContainEqual({ x, date });
    }
  });

  test("what to do next is about the weakest cylinder, and of one last test in doubt its repeat", () => {
    const gasket = halfYearly([...worn(4, 6, 0), [6, 24, 24, 6], [6, 26, 26, 6]]).map((t) => ({
      ...t,
      readings: t.readings.map((r) => ({ ...r, heardAt: r.value > 20 ? (["neighbour"] as const) : [] })),
    }));
    expect(report({ units, tests: gasket }).next.map((step) => step.title)).toContain(
      "Test the coolant for combustion gas",
    );
    const unsound = { units, tests: [...flat, leakDown("2026-06-20", 101_000, [6, 6, 97, 6])] };
    const doubted = report(unsound);
    expect(doubted.assessment.inDoubt.map((d) => d.cylinder)).toEqual([3]);
    expect(doubted.next[0]?.title).toBe("Repeat the leak-down test of cylinder 3");
  });

  test("beside one last test in doubt the weakest cylinder keeps its own steps", () => {
    const valve = halfYearly(Array.from({ length: 6 }, (_, i) => [6 + 4 * i, 6 + (i % 2), 7, 6])).map((t) => ({
      ...t,
      readings: t.readings.map((r) => ({ ...r, heardAt: r.value > 9 ? (["exhaust"] as const) : [] })),
    }));
    const { finding, next } = report({ units, tests: [...valve, leakDown("2026-06-20", 101_000, [26, 6, 97, 6])] });
    expect(finding).toMatch(/Cylinder 1(?:, probably the exhaust valve or seat \(\d\d %\))?: leakage/);
    expect(next[0]?.title).toBe("Repeat the leak-down test of cylinder 3");
    expect(next.map((step) => step.detail).join()).toMatch(/Cylinder 1: the cheapest cure/);
  });

  test("of a unit that stands, the first step is a warm run, said as in its warnings", () => {
    const standing = wearing.map((t, i) => ({ ...t, meter: 100_000 + 200 * i }));
    const { next, assessment } = report({ units, tests: standing });
    expect(next[0]?.title).toBe("Test again after a warm run");
    expect(next[0]?.caution).toMatch(/crank|Fuel and ignition disabled/);
    expect(next.filter(({ caution }) => caution === next[0]?.caution)).toHaveLength(1);
    expect(assessment.warnings.map((w) => `${w}.`)).toContain(next[0]?.detail);
    expect(report({ units, tests: wearing }).next.map((step) => step.title)).not.toContain(next[0]?.title);
  });
});
