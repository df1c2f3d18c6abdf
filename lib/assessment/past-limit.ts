import type { AssessedUnit } from "../assess.ts";
import { addMonths, daysBetween } from "../calendar.ts";
import { probabilityWithinDays } from "../projection/crossing.ts";
import { toldProbability } from "../projection/tell.ts";
import type { CrossingDistribution } from "../projection/types.ts";
import type { UnitReport } from "../schema/report.ts";

type Months = UnitReport["pastLimit"];

/**
 * The probability that the unit is past a limit, by month from the as-of date to the end of the horizon, for each class of
 * repair, if none is made; empty: its tests foresee nothing.
 */
export const pastLimitByMonth = ({ windows, telling }: Pick<AssessedUnit, "windows" | "telling">): Months =>
  byMonth(windows.topEndDistribution, windows.bottomEndDistribution, telling);

/** The same by what sister engines do alone, for a unit whose own tests foresee nothing; empty: they do, or the pool says nothing. */
export function fromModelByMonth({ windows, telling }: Pick<AssessedUnit, "windows" | "telling">): Months {
  if (windows.topEndDistribution !== null || windows.bottomEndDistribution !== null) return [];
  const { topEnd, bottomEnd } = windows.fromModelDistributions;
  return byMonth(topEnd, bottomEnd, telling);
}

function byMonth(
  top: CrossingDistribution | null,
  bottom: CrossingDistribution | null,
  { asOf, use, horizonDays }: AssessedUnit["telling"],
): Months {
  if (top === null && bottom === null) return [];
  const months: { date: string; topEnd: number; bottomEnd: number }[] = [];
  for (let month = 0; ; month++) {
    const date = addMonths(asOf, month);
    const days = daysBetween(asOf, date);
    if (days > horizonDays) return months;
    const within = (d: typeof top) => (d === null ? 0 : toldProbability(probabilityWithinDays(d, use, days)));
    months.push({ date, topEnd: within(top), bottomEnd: within(bottom) });
  }
}
