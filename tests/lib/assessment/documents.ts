import type { Crossing, CylinderAssessment, MeasureAssessment, UnitAssessment } from "@/lib/schema/assessment.ts";
import { bands, type Cause, type CrossingStatus } from "@/lib/schema/words.ts";

/** Made-up assessments, so that a test of what is said of them states only what matters to it. */

export const asOf = "2026-06-30";

/** A crossing by its three dates; the meter follows from the day at 100 a day from 50,000. */
export function crossing(
  status: CrossingStatus,
  dates: readonly (string | null)[] = [],
  probabilityWithinYear: number | null = 0.05,
): Crossing {
  const [p10 = null, p50 = null, p90 = null] = dates;
  const meter = (date: string | null) =>
    date === null ? null : 50_000 + 100 * Math.round((Date.parse(date) - Date.parse(asOf)) / 86_400_000);
  return {
    status,
    meter: { p10: meter(p10), p50: meter(p50), p90: meter(p90) },
    date: { p10, p50, p90 },
    probabilityWithinYear,
  };
}

export const leakage = (level: number | null, changes: Partial<MeasureAssessment> = {}): MeasureAssessment => ({
  measure: "leak-down",
  unit: "%",
  tests: 5,
  latest: level,
  level,
  limit: 30,
  band: level === null ? null : "sound",
  rate: null,
  crossing: crossing("not-foreseen"),
  reason: "",
  ...changes,
});

export const compression = (level: number | null, changes: Partial<MeasureAssessment> = {}): MeasureAssessment =>
  leakage(level, { measure: "compression-dry", unit: "kPa", limit: 900, ...changes });

/** A cylinder whose leading cause is told with its probability; its band is its worst measure's. */
export function cylinder(
  number: number,
  measures: readonly MeasureAssessment[],
  [cause, probability]: readonly [Cause, number] = ["rings-or-bore", 0.4],
): CylinderAssessment {
  return {
    cylinder: number,
    band: bands.findLast((band) => measures.some((m) => m.band === band)) ?? null,
    measures: [...measures],
    causes: [{ cause, probability, because: [], against: [] }],
    topEnd: 0.45,
    bottomEnd: 0.45,
    testSetUp: 0.1,
    reason: "",
  };
}

/** A unit by its cylinders, tested in June 2026 and with no repair in sight unless told otherwise; its band is the worst. */
export function unitOf(
  cylinders: readonly CylinderAssessment[],
  changes: Partial<UnitAssessment> = {},
): UnitAssessment {
  return {
    unit: "V-1",
    engineModel: "petrol-4-a",
    band: bands.findLast((band) => cylinders.some((c) => c.band === band)) ?? null,
    meter: { value: 50_000, unit: "km", perDay: 100 },
    lastTestDate: "2026-06-11",
    cylinders: [...cylinders],
    repairs: { topEnd: crossing("not-foreseen"), bottomEnd: crossing("not-foreseen") },
    warnings: [],
    engineSerial: null,
    reason: "",
    questions: [],
    inDoubt: [],
    pools: [],
    ...changes,
  };
}
