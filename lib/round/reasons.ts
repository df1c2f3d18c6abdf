import { addDays } from "../calendar.ts";
import { testDue, testIntervalOf } from "../condition/test-due.ts";
import { daysFor } from "../projection/use-ahead.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { TestLine, UnitReport } from "../schema/report.ts";
import type { AssessmentSettings } from "../schema/settings.ts";

/** Why a unit is on a test round. */
export type RoundReason =
  /** It has no test that can be used: `never` tested, or all were set aside. */
  | { readonly kind: "first"; readonly never: boolean }
  /** Its test interval ends by the calendar on `on`, or at `meter` (in the unit's meter unit), which is met about then. */
  | { readonly kind: "interval"; readonly on: IsoDate; readonly meter: number | null }
  /** On watch or worse it is tested before the interval ends. */
  | { readonly kind: "sooner"; readonly on: IsoDate }
  /** Its last reading is not relied on: an open question that a repeat settles. */
  | { readonly kind: "question"; readonly words: string };

type ToJudge = Pick<UnitReport, "assessment" | "asOf" | "xNow" | "model" | "tests" | "nextTestDue" | "use">;
type IntervalSettings = Pick<AssessmentSettings, "testIntervalDays" | "testIntervalKm" | "testIntervalHours">;

/** Why a unit is to be tested up to the day `until`, what is due first; empty: it is not. */
export function roundReasons(report: ToJudge, settings: IntervalSettings, until: IsoDate): readonly RoundReason[] {
  const due = dueReason(report, settings, until);
  const asked = report.assessment.inDoubt.map(({ words }) => ({ kind: "question" as const, words }));
  return due === null ? asked : [due, ...asked];
}

function dueReason(report: ToJudge, settings: IntervalSettings, until: IsoDate): RoundReason | null {
  const { assessment, asOf, xNow, model, nextTestDue } = report;
  if (nextTestDue === null || nextTestDue > until) return null;
  const last = lastUsed(report.tests);
  if (last === undefined) return { kind: "first", never: assessment.lastTestDate === null };
  const { value, unit, perDay } = assessment.meter;
  const interval = testIntervalOf(model, unit, settings);
  const { season = null } = report.use;
  const use = { perDay, season: season === null ? null : { from: asOf, quarters: season } };
  const told = {
    lastTest: last,
    now: { date: asOf, x: xNow },
    daysFor: (distance: number) => daysFor(use, distance),
    meterUnit: unit,
  };
  const byDate = testDue({ ...told, interval: { days: interval?.days } }).dueDate;
  const byMeter = testDue({ ...told, interval: { meter: interval?.meter } }).dueDate;
  const [first] = [byDate, byMeter].filter((date) => date !== null).toSorted();
  // The use is told rounded, so that the day on which the meter gets there may differ by one.
  if (first === undefined || nextTestDue < addDays(first, -1)) return { kind: "sooner", on: nextTestDue };
  const atMeter = first === byMeter && interval?.meter !== undefined ? value + interval.meter - (xNow - last.x) : null;
  return { kind: "interval", on: nextTestDue, meter: atMeter };
}

/** The latest test with a reading that is used. */
const lastUsed = (tests: readonly TestLine[]): TestLine | undefined =>
  tests
    .filter(({ entered }) => entered.some(({ weight }) => weight > 0))
    .toSorted((a, b) => (a.date === b.date ? a.x - b.x : a.date < b.date ? -1 : 1))
    .at(-1);
