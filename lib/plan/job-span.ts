import type { DepotWeek, WeekUse, Work } from "../schema/kept-plan.ts";
import type { PlanUnit } from "./types.ts";

const daysOfWeek = 7;

/**
 * What a repair that begins on the Monday of `start` takes of each week: its bay is used on the days on which the workshop
 * is open, its hours go evenly over these, and every week in which the workshop is closed keeps the unit off the road for as
 * many days more. null: the workshop is closed in the week, or the work would not be done within the weeks given.
 */
export function jobSpan(
  { bayDays, labourHours, daysOff }: Pick<Work, "bayDays" | "labourHours" | "daysOff">,
  weeks: readonly DepotWeek[],
  start: number,
): readonly WeekUse[] | null {
  if ((weeks[start]?.openDays ?? 0) === 0) return null;
  const uses: WeekUse[] = [];
  let leftInBay = bayDays;
  let leftOff = Math.max(daysOff, bayDays);
  for (let week = start; week === start || leftInBay > 0 || leftOff > 0; week++) {
    const of = weeks[week];
    if (of === undefined) return null;
    const inBay = Math.min(leftInBay, of.openDays);
    if (of.openDays === 0 && leftInBay > 0) leftOff += daysOfWeek;
    const off = Math.min(leftOff, daysOfWeek);
    uses.push({ week, bayDays: inBay, hours: bayDays === 0 ? 0 : (labourHours * inBay) / bayDays, daysOff: off });
    leftInBay -= inBay;
    // What is still in the bay is off the road on.
    leftOff = Math.max(leftOff - off, leftInBay);
  }
  // Work without a bay is done in its first week.
  const [first, ...rest] = uses;
  return bayDays === 0 && first !== undefined ? [{ ...first, hours: labourHours }, ...rest] : uses;
}

/** What the days off cost, less those on which the unit is in the workshop anyway. */
export function downtimeCost(
  { dayCost, peakFactor, peakWeeks, otherWork }: Pick<PlanUnit, "dayCost" | "peakFactor" | "peakWeeks" | "otherWork">,
  weeks: readonly DepotWeek[],
  span: readonly WeekUse[],
): number {
  return span.reduce((sum, { week, daysOff }) => {
    const anyway = otherWork.reduce((days, of) => days + (of.week === week ? of.days : 0), 0);
    const factor = 1 + (peakFactor - 1) * (peakWeeks.has(week) ? 1 : (weeks[week]?.peakShare ?? 0));
    return sum + dayCost * factor * Math.max(0, daysOff - anyway);
  }, 0);
}
