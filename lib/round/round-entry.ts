import type { IsoDate } from "../schema/facts.ts";
import type { TestLine, UnitReport } from "../schema/report.ts";
import type { Settings } from "../schema/settings.ts";
import type { Band, JudgedMeasure, MeterUnit } from "../schema/words.ts";
import { type RoundReason, roundReasons } from "./reasons.ts";
import { testHours, testsOf } from "./test-hours.ts";

/** The last test of one kind, as it was entered: what the next reading is held against. */
export type LastValues = Pick<TestLine, "measure" | "date" | "meter" | "entered" | "instrument">;

/** One unit of a test round. */
export interface RoundEntry {
  readonly unit: string;
  readonly depot: string | null;
  readonly modelName: string;
  readonly cylinders: number;
  readonly status: UnitReport["status"];
  readonly band: Band | null;
  readonly lastTestDate: IsoDate | null;
  /** When its test is due; null: no interval ends, a question alone asks for it. */
  readonly due: IsoDate | null;
  /** Due before today, or never tested. */
  readonly overdue: boolean;
  readonly reasons: readonly RoundReason[];
  /** In the unit's meter unit, at the as-of date. */
  readonly meter: number;
  readonly meterUnit: MeterUnit;
  readonly tests: readonly JudgedMeasure[];
  readonly last: readonly LastValues[];
  /** A technician's hours. */
  readonly hours: number;
}

/** What a round up to the day `until` tells of one unit; without reasons where nothing is due there. */
export function roundEntry(report: UnitReport, settings: Settings, until: IsoDate): RoundEntry {
  const { assessment, model } = report;
  const tests = testsOf(model);
  return {
    unit: assessment.unit,
    depot: report.depot,
    modelName: model.name ?? model.id,
    cylinders: model.cylinders,
    status: report.status,
    band: assessment.band,
    lastTestDate: assessment.lastTestDate,
    due: report.nextTestDue,
    overdue: report.testOverdue || (report.nextTestDue !== null && report.nextTestDue < report.asOf),
    reasons: roundReasons(report, settings, until),
    meter: assessment.meter.value,
    meterUnit: assessment.meter.unit,
    tests,
    last: tests.flatMap((measure) => lastOf(report.tests, measure) ?? []),
    hours: testHours(model, settings),
  };
}

function lastOf(tests: readonly TestLine[], wanted: JudgedMeasure): LastValues | undefined {
  const last = tests
    .filter(({ measure }) => measure === wanted)
    .toSorted((a, b) => (a.date === b.date ? a.x - b.x || a.attempt - b.attempt : a.date < b.date ? -1 : 1))
    .at(-1);
  if (last === undefined) return undefined;
  const { measure, date, meter, entered, instrument } = last;
  return { measure, date, meter, entered, instrument };
}
