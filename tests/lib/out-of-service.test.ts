import { expect, test } from "vitest";
import { reportUnit } from "@/lib/report.ts";
import type { UnitStatus } from "@/lib/schema/words.ts";
import { assessedUnit, halfYearly, worn } from "./assessment/made-up-fleet.ts";
import { meterFact, unitFact } from "./sealing/facts.ts";

/** Worn by 0.8 points each half year, to 23.6 %; the last reading of the meter was in June, today is at the end of the year. */
function unitThatIs(status: UnitStatus, first = 18) {
  return assessedUnit(
    {
      units: [unitFact({ status })],
      tests: halfYearly(worn(8, first, 0.8)),
      meterReadings: [meterFact({ date: "2026-06-20", meter: 101_000 })],
    },
    { asOf: "2026-12-31" },
  );
}

/** Paths of the numbers that JSON would write as null. */
function lost(value: unknown, at = ""): string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [at];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => lost(inner, `${at}.${key}`));
}

test("a unit in service goes on working in the forecast", () => {
  const { assessment } = unitThatIs("in-service");
  expect(assessment.meter.value).toBeGreaterThan(105_000);
  expect(assessment.meter.perDay).toBeGreaterThan(30);
  expect(assessment.cylinders[0]?.measures[0]?.crossing?.status).toBe("projected");
  expect(assessment.warnings.join()).not.toContain("no use assumed");
});

test.each([
  ["stopped", "Stopped: no use assumed since its last meter reading on 20 Jun 2026"],
  ["retired", "Retired: no use assumed since its last meter reading on 20 Jun 2026"],
] as const)("a unit that is %s stands where it was last read, and crosses nothing by standing", (status, words) => {
  const assessed = unitThatIs(status);
  const { meter, cylinders, repairs, warnings } = assessed.assessment;
  expect(meter).toEqual({ value: 101_000, unit: "km", perDay: 0 });
  for (const { measures } of cylinders) {
    expect(measures[0]?.crossing).toMatchObject({ status: "not-foreseen", date: { p10: null, p50: null, p90: null } });
  }
  for (const window of [repairs.topEnd, repairs.bottomEnd]) expect(window.status).toBe("not-foreseen");
  expect(warnings).toContain(words);
  expect(warnings.join()).not.toContain("Works only");
  const report = reportUnit(assessed);
  expect(lost(report)).toEqual([]);
  expect(report.datesOnAxis.at(-1)).toEqual({ x: 101_000, date: "2026-12-31" });
  expect(report.charts[0]?.cylinders[0]?.fan).toEqual([]);
});

test("what is past its limit stays so when it is stopped", () => {
  const { assessment } = unitThatIs("stopped", 30);
  expect(assessment.band).toBe("past-limit");
  expect(assessment.cylinders[0]?.measures[0]?.crossing?.date.p90).toBe("2026-12-31");
});
