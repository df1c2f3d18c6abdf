import type { AssessedUnit } from "../assess.ts";
import { addMonths, daysBetween } from "../calendar.ts";
import { probabilityWithinDays } from "../projection/crossing.ts";
import { toldProbability } from "../projection/tell.ts";
import type { UnitReport } from "../schema/report.ts";

/**
 * The probability that the unit is past a limit, by month from the as-of date to the end of the horizon, for each class of
 * repair, if none is made; empty: its tests foresee nothing.
 */
export function pastLimitByMonth({
  windows,
  telling,
}: Pick<AssessedUnit, "windows" | "telling">): UnitReport["pastLimit"] {
  const { topEndDistribution: top, bottomEndDistribution: bottom } = windows;
  if (top === null && bottom === null) return [];
  const months: { date: string; topEnd: number; bottomEnd: number }[] = [];
  for (let month = 0; ; month++) {
    const date = addMonths(telling.asOf, month);
    const days = daysBetween(telling.asOf, date);
    if (days > telling.horizonDays) return months;
    const within = (d: typeof top) => (d === null ? 0 : toldProbability(probabilityWithinDays(d, telling.use, days)));
    months.push({ date, topEnd: within(top), bottomEnd: within(bottom) });
  }
}
