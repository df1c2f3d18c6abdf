import type { Crossing, UnitAssessment } from "@/lib/schema/assessment.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import { model } from "./made-up.ts";

const none = { p10: null, p50: null, p90: null };
const notForeseen: Crossing = { status: "not-foreseen", meter: none, date: none, probabilityWithinYear: 0.01 };

export const projected = (p10: string, p50: string | null = null): Crossing => ({
  status: "projected",
  meter: { p10: 1, p50: p50 === null ? null : 2, p90: null },
  date: { p10, p50, p90: null },
  probabilityWithinYear: 0.4,
});

export const crossed = (date: string): Crossing => ({
  status: "crossed",
  meter: { p10: 1, p50: 1, p90: 1 },
  date: { p10: date, p50: date, p90: date },
  probabilityWithinYear: 1,
});

type Made = Partial<Omit<UnitReport, "assessment">> & { readonly assessment?: Partial<UnitAssessment> };

/** A small but whole report of a unit with one cylinder and nothing foreseen. */
export function report(unit: string, { assessment = {}, ...more }: Made = {}): UnitReport {
  const band = assessment.band === undefined ? "sound" : assessment.band;
  return {
    asOf: "2026-06-30",
    assessment: {
      unit,
      engineModel: "petrol-4-a",
      band,
      meter: { value: 1000, unit: "h", perDay: 5 },
      lastTestDate: "2026-03-01",
      cylinders: [{ cylinder: 1, band, measures: [], causes: [], topEnd: 1, bottomEnd: 0, testSetUp: 0, reason: "" }],
      repairs: { topEnd: notForeseen, bottomEnd: notForeseen },
      warnings: [],
      engineSerial: null,
      reason: "",
      questions: [],
      inDoubt: [],
      pools: [],
      ...assessment,
    },
    basis: { perDay: 5, meterUnit: "h", pools: [] },
    fromModel: null,
    together: null,
    depot: null,
    unitClass: null,
    status: "in-service",
    model: model({ name: "Four in line" }),
    finding: "All cylinders are sound.",
    next: [],
    howSure: "",
    place: { title: "Cylinder 1", detail: "sound" },
    testOverdue: false,
    nextTestDue: null,
    axisIsMeter: true,
    xNow: 1000,
    datesOnAxis: [],
    charts: [],
    earlyWarnings: [],
    doubtfulTests: 0,
    tests: [],
    repairs: [],
    checks: [],
    settles: [],
    use: { spans: [], resets: [], ahead: { p10: 4, p50: 5, p90: 6 }, aheadIsPooled: true, notes: [] },
    ageDays: { topEnd: 200, bottomEnd: 200 },
    pastLimitOfModel: [],
    pastLimit: [],
    ...more,
  };
}
