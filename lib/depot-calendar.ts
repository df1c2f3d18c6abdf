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

/** How many weeks a yearly period that begins in an ISO year of `weeks` (52 or 53) has, both ends counted in. */
export function weekCount(period: { readonly firstWeek: number; readonly lastWeek: number }, weeks: number): number {
  const first = Math.min(weeks, period.firstWeek);
  const last = Math.min(weeks, period.lastWeek);
  return period.lastWeek >= period.firstWeek ? last - first + 1 : weeks - first + 1 + last;
}

/**
 * The first two periods that lie over each other, as places in the list; null: none do. A closing between dates may lie
 * within peak weeks of every year: that is a closing in the season. All else would say two things of one day.
 */
export function overlapOf(periods: readonly DepotPeriod[]): readonly [number, number] | null {
  for (const [j, later] of periods.entries()) {
    for (const [i, earlier] of periods.slice(0, j).entries()) {
      if (!closesInSeason(earlier, later) && !closesInSeason(later, earlier) && overlaps(earlier, later)) return [i, j];
    }
  }
  return null;
}

const closesInSeason = (one: DepotPeriod, other: DepotPeriod): boolean =>
  one.kind === "closed" && one.repeat === "once" && other.kind === "peak" && other.repeat === "yearly";

function overlaps(a: DepotPeriod, b: DepotPeriod): boolean {
  if (a.repeat === "once") return periodsWithin([b], a.firstDate, a.lastDate).length > 0;
  if (b.repeat === "once") return periodsWithin([a], b.firstDate, b.lastDate).length > 0;
  const weeks = weeksOf(a);
  return [...weeksOf(b)].some((week) => weeks.has(week));
}

/** The numbers of a yearly period's weeks, in years of 52 and of 53: week 53 is the last week of a year without one. */
function weeksOf({ firstWeek, lastWeek }: { readonly firstWeek: number; readonly lastWeek: number }): Set<number> {
  const weeks = new Set<number>(firstWeek === 53 ? [52] : []);
  for (let week = firstWeek; ; week = week === 53 ? 1 : week + 1) {
    weeks.add(week);
    if (week === lastWeek) return weeks;
  }
}
