import { addMonths, daysBetween } from "../calendar.ts";
import type { Telling } from "../projection/tell.ts";
import { distanceWithin } from "../projection/use-ahead.ts";
import type { UnitReport } from "../schema/report.ts";
import type { EngineHistory, UnitHistory } from "../sealing/types.ts";

/**
 * Dates along the engine's wear meter: at its tests and repairs and the unit's readings since it was fitted, now, and
 * then every quarter by the unit's use up to the horizon. Ascending in both; without use ahead it ends now.
 */
export function datesOnAxis(
  unit: UnitHistory,
  history: EngineHistory,
  telling: Telling,
  xNow: number,
): UnitReport["datesOnAxis"] {
  const fitted = history.fittings.findLast((f) => f.unit === unit.unit)?.fromDate ?? "";
  const known = [
    ...history.tests.map(({ x, date }) => ({ x, date })),
    ...history.repairs.map(({ x, date }) => ({ x, date })),
    ...unit.meterPoints
      .filter((p) => p.date >= fitted)
      .map((p) => ({ x: p.cumulative + unit.engineOffset, date: p.date })),
  ].toSorted((a, b) => a.x - b.x || (a.date < b.date ? -1 : 1));
  const ascending: { x: number; date: string }[] = [];
  for (const point of known) {
    const last = ascending.at(-1);
    // What lies ahead is dated from today on, also where the unit has stood still since its last reading.
    if (point.x >= xNow || point.date >= telling.asOf) continue;
    if (last === undefined || (point.x > last.x && point.date > last.date)) ascending.push(point);
  }
  ascending.push({ x: xNow, date: telling.asOf });
  for (let months = 3; telling.use.perDay > 0; months += 3) {
    const date = addMonths(telling.asOf, months);
    const days = daysBetween(telling.asOf, date);
    if (days > telling.horizonDays) break;
    ascending.push({ x: xNow + distanceWithin(telling.use, days), date });
  }
  return ascending;
}
