import type { Crossing, UnitAssessment } from "../lib/schema/assessment.ts";
import type { Standing } from "../lib/schema/changes.ts";
import type { WindowDates } from "../lib/schema/report.ts";
import { type Band, bands } from "../lib/schema/words.ts";
import { dateOfDay, dayOf } from "./days.ts";
import type { Schema } from "./schema.ts";

/** The columns that `assessments` and `fleet_rows` have in common: where a unit stood. */
export type StandingColumns = Pick<
  Schema["assessments"]["$inferSelect"],
  | "asOf"
  | "band"
  | "bandPlace"
  | "lastTestDate"
  | "questions"
  | "topEndStatus"
  | "topEndEarlyDay"
  | "topEndLikelyDay"
  | "topEndLateDay"
  | "bottomEndStatus"
  | "bottomEndEarlyDay"
  | "bottomEndLikelyDay"
  | "bottomEndLateDay"
>;

/** 0: past the limit … 3: sound; null: not judged. */
const bandPlaceOf = (band: Band | null): number | null =>
  band === null ? null : bands.length - 1 - bands.indexOf(band);

const dayOrNull = (date: string | null): number | null => (date === null ? null : dayOf(date));
const dateOrNull = (day: number | null): string | null => (day === null ? null : dateOfDay(day));

/** Where a unit stands by an assessment, in columns. */
export function standingColumns(asOf: string, assessment: UnitAssessment): StandingColumns {
  const { band, lastTestDate, questions, repairs } = assessment;
  const days = ({ date }: Crossing) => [dayOrNull(date.p10), dayOrNull(date.p50), dayOrNull(date.p90)] as const;
  const [topEndEarlyDay, topEndLikelyDay, topEndLateDay] = days(repairs.topEnd);
  const [bottomEndEarlyDay, bottomEndLikelyDay, bottomEndLateDay] = days(repairs.bottomEnd);
  return {
    asOf,
    band,
    bandPlace: bandPlaceOf(band),
    lastTestDate,
    questions: questions.length,
    topEndStatus: repairs.topEnd.status,
    topEndEarlyDay,
    topEndLikelyDay,
    topEndLateDay,
    bottomEndStatus: repairs.bottomEnd.status,
    bottomEndEarlyDay,
    bottomEndLikelyDay,
    bottomEndLateDay,
  };
}

export function standingOf(row: StandingColumns): Standing {
  const window = (status: WindowDates["status"], ...days: (number | null)[]): WindowDates => {
    const [p10, p50, p90] = days.map(dateOrNull);
    return { status, p10: p10 ?? null, p50: p50 ?? null, p90: p90 ?? null };
  };
  return {
    asOf: row.asOf,
    band: row.band,
    lastTestDate: row.lastTestDate,
    questions: row.questions,
    topEnd: window(row.topEndStatus, row.topEndEarlyDay, row.topEndLikelyDay, row.topEndLateDay),
    bottomEnd: window(row.bottomEndStatus, row.bottomEndEarlyDay, row.bottomEndLikelyDay, row.bottomEndLateDay),
  };
}
