import type { AssessedUnit } from "../assess.ts";
import { daysBetween } from "../calendar.ts";
import { bottomEndRenewal, wearLives } from "../condition/lives.ts";
import type { UnitReport } from "../schema/report.ts";
import { rounded } from "./rounding.ts";

/**
 * How old the parts are that each class of repair renews, in days of the unit's use of today: the use since the oldest of
 * the cylinders was renewed, over the use a day. Of a unit that stands, the days since then that are on file.
 */
export function lifeAgeDays({
  state,
  xNow,
  telling,
}: Pick<AssessedUnit, "state" | "xNow" | "telling">): UnitReport["ageDays"] {
  const { history } = state.conditioned;
  const begins = wearLives(history).filter(({ toX }) => toX === null);
  const top = begins.map(({ startedBy }) => startedBy);
  const bottom = begins.map(({ cylinder }) => bottomEndRenewal(history, cylinder));
  const { perDay } = telling.use;
  const age = (startedBy: readonly (typeof top)[number][]) => {
    const ages = startedBy.map((repair) => {
      if (perDay > 0) return (xNow - Math.min(xNow, repair?.x ?? 0)) / perDay;
      const since = repair?.date ?? history.tests[0]?.date ?? telling.asOf;
      return daysBetween(since, telling.asOf);
    });
    return rounded(Math.max(0, ...ages), 0);
  };
  return { topEnd: age(top), bottomEnd: age(bottom) };
}
