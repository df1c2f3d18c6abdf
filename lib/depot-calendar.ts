import { addDays, isoWeek, mondayOfWeek } from "./calendar.ts";
import type { DepotPeriod } from "./schema/depot.ts";
import type { IsoDate } from "./schema/facts.ts";

/** A stretch of days of a depot's calendar, both ends counted in. */
export interface CalendarSpan extends Pick<DepotPeriod, "kind" | "remarks"> {
  readonly from: IsoDate;
  readonly to: IsoDate;
}

/**
 * What of the periods lies between two dates (both counted in), cut at these, by first day: yearly weeks once for each
 * year. Weeks are those of ISO 8601; week 53 of a year without one is its last week.
 */
export function periodsWithin(periods: readonly DepotPeriod[], from: IsoDate, to: IsoDate): CalendarSpan[] {
  const spans = periods.flatMap((period) => {
    const { kind, remarks } = period;
    const days = period.repeat === "once" ? [daysOnce(period)] : daysOfYears(period, from, to);
    return days.map(({ first, last }) => ({
      kind,
      remarks,
      from: first < from ? from : first,
      to: last > to ? to : last,
    }));
  });
  const compare = (a: CalendarSpan, b: CalendarSpan) =>
    a.from < b.from ? -1 : a.from > b.from ? 1 : a.to < b.to ? -1 : 1;
  return spans.filter((span) => span.from <= span.to).sort(compare);
}

const daysOnce = (period: { readonly firstDate: IsoDate; readonly lastDate: IsoDate }) => ({
  first: period.firstDate,
  last: period.lastDate,
});

function daysOfYears({ firstWeek, lastWeek }: { firstWeek: number; lastWeek: number }, from: IsoDate, to: IsoDate) {
  const overYearEnd = lastWeek < firstWeek;
  const lastYear = isoWeek(to).year;
  const spans: { first: IsoDate; last: IsoDate }[] = [];
  for (let year = isoWeek(from).year - (overYearEnd ? 1 : 0); year <= lastYear; year++) {
    const lastMonday = mondayOfWeek(overYearEnd ? year + 1 : year, lastWeek);
    spans.push({ first: mondayOfWeek(year, firstWeek), last: addDays(lastMonday, 6) });
  }
  return spans;
}
