import { boundByLabour } from "../../../lib/plan/works-of.ts";
import type { Work } from "../../../lib/schema/kept-plan.ts";
import type { DepotWorkshop } from "../../../lib/schema/workshop.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";

/**
 * Why a repair takes longer than its engine model may tell, in a sentence: its hours take the workshop so many days. Empty: they do
 * not, and the days are as the model tells them.
 */
export function daysWords(f: Formats, work: Work, depot: DepotWorkshop): string {
  const bound = boundByLabour(work, depot);
  if (bound === null) return "";
  const { people, isOffByBay } = bound;
  const hours = (value: number) => `${f.number(value, Number.isInteger(Number(value.toFixed(1))) ? 0 : 1)}\u00a0h`;
  const who = work.needsBuilder
    ? `${f.number(people)} who ${people === 1 ? "builds" : "build"} bottom ends`
    : `${f.number(people)} ${people === 1 ? "technician" : "technicians"}`;
  const works = `${hours(depot.productiveHoursPerDay)} a day each`;
  const off = isOffByBay
    ? `, ${f.days(work.daysOff)} off the road with the days between on which nobody works, whatever fewer its engine model tells`
    : "";
  return `Its ${hours(work.labourHours)} take ${who} at ${works} ${f.number(work.bayDays)} working ${work.bayDays === 1 ? "day" : "days"}${off}.`;
}
