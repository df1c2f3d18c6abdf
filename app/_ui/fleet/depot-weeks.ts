import { addDays } from "../../../lib/calendar.ts";
import { type CalendarSpan, periodsWithin } from "../../../lib/depot-calendar.ts";
import type { DepotPeriod } from "../../../lib/schema/depot.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { percentOf, type TimeSpan } from "../time-span.ts";

/** A depot's peak and closed weeks on the axis. */
export interface DepotWeeks {
  readonly depot: string;
  /** Of the drawing that the depot's rows share. */
  readonly id: string;
  readonly spans: readonly CalendarSpan[];
}

type OfDepot = DepotPeriod & { readonly depot: string };

/** The weeks of each depot named, as far as the axis shows them; depots without any are left out. */
export function depotWeeks(
  periods: readonly OfDepot[],
  depots: Iterable<string | null>,
  span: TimeSpan,
): ReadonlyMap<string, DepotWeeks> {
  const weeks = new Map<string, DepotWeeks>();
  for (const depot of new Set(depots)) {
    if (depot === null) continue;
    const its = periods.filter((period) => period.depot === depot);
    const spans = periodsWithin(its, span.from, span.to);
    if (spans.length > 0) weeks.set(depot, { depot, id: `fleet-weeks-${weeks.size + 1}`, spans });
  }
  return weeks;
}

/** Where a stretch of days lies on the axis, per cent; its last day is counted in. */
export function placeOf(
  { from, to }: CalendarSpan,
  span: TimeSpan,
): { readonly start: number; readonly width: number } {
  const start = Math.max(0, percentOf(span, from));
  return { start, width: Math.max(0, Math.min(100, percentOf(span, addDays(to, 1))) - start) };
}

/** "closed 9 Nov 2026 to 28 Feb 2027", "peak weeks until 6 Sep 2026" where they have begun by the axis' start. */
export function weekWords({ kind, from, to }: CalendarSpan, span: TimeSpan, f: Formats): string {
  const what = kind === "peak" ? "peak weeks" : "closed";
  return from === span.from ? `${what} until ${f.date(to)}` : `${what} ${f.date(from)} to ${f.date(to)}`;
}

export interface DueWhileClosed {
  readonly depot: string;
  readonly units: number;
}

/** How many likely repairs fall into the closed weeks of their depot: the most first. */
export function dueWhileClosed(
  due: readonly { readonly depot: string; readonly dueDate: IsoDate }[],
  periods: readonly OfDepot[],
): readonly DueWhileClosed[] {
  const units = new Map<string, number>();
  for (const { depot, dueDate } of due) {
    const its = periods.filter((period) => period.depot === depot && period.kind === "closed");
    if (periodsWithin(its, dueDate, dueDate).length > 0) units.set(depot, (units.get(depot) ?? 0) + 1);
  }
  return [...units]
    .map(([depot, count]) => ({ depot, units: count }))
    .sort((a, b) => b.units - a.units || (a.depot < b.depot ? -1 : 1));
}
