import { addDays, daysBetween } from "../calendar.ts";
import { periodsWithin } from "../depot-calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { DepotWeek } from "../schema/kept-plan.ts";
import type { DepotWorkshop, Workshop } from "../schema/workshop.ts";

const daysOfWeek = 7;

/**
 * What a workshop has in each week from a Monday on: days without closed ones, bays and hours less what other jobs take. It
 * works on the first `daysPerWeek` days of a week.
 */
export function depotWeeks(
  { bays, technicians, builders, productiveHoursPerDay, daysPerWeek, periods }: DepotWorkshop,
  taken: Workshop["taken"],
  { firstMonday, weeks }: { readonly firstMonday: IsoDate; readonly weeks: number },
): readonly DepotWeek[] {
  const closed = new Uint8Array(weeks * daysOfWeek);
  const peak = new Uint8Array(weeks * daysOfWeek);
  const end = addDays(firstMonday, weeks * daysOfWeek - 1);
  for (const { kind, from, to } of periodsWithin(periods, firstMonday, end)) {
    const marked = kind === "closed" ? closed : peak;
    marked.fill(1, daysBetween(firstMonday, from), daysBetween(firstMonday, to) + 1);
  }
  return Array.from({ length: weeks }, (_, week) => {
    const monday = week * daysOfWeek;
    const sum = (of: Uint8Array, days: number) => of.slice(monday, monday + days).reduce((a, b) => a + b, 0);
    const openDays = daysPerWeek - sum(closed, daysPerWeek);
    const there = taken.filter(({ date }) => Math.floor(daysBetween(firstMonday, date) / daysOfWeek) === week);
    const less = (whole: number, of: "bayDays" | "hours") =>
      Math.max(
        0,
        there.reduce((left, one) => left - one[of], whole),
      );
    return {
      openDays,
      bayDays: less(bays * openDays, "bayDays"),
      hours: less(technicians * productiveHoursPerDay * openDays, "hours"),
      builderHours: builders * productiveHoursPerDay * openDays,
      peakShare: sum(peak, daysOfWeek) / daysOfWeek,
    };
  });
}
