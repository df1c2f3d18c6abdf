import type { IsoDate } from "../../lib/schema/facts.ts";
import type { Settings } from "../../lib/schema/settings.ts";

/** The calendar date in a time zone (IANA name) at an instant. Throws a RangeError for a zone that is not known. */
export function dateIn(timeZone: string, instant: Date): IsoDate {
  const parts = new Intl.DateTimeFormat("en-GB", { timeZone, year: "numeric", month: "2-digit", day: "2-digit" });
  const part = new Map(parts.formatToParts(instant).map(({ type, value }) => [type, value]));
  return `${part.get("year")?.padStart(4, "0")}-${part.get("month")}-${part.get("day")}`;
}

/** The date that the fleet is told for: a fixed one (the demo fleet's), else today where the fleet is. */
export const asOfDate = (settings: Pick<Settings, "asOf" | "timeZone">, now: Date): IsoDate =>
  settings.asOf ?? dateIn(settings.timeZone, now);

/** The last date that a row may carry: today, or the fixed as-of date where that lies ahead of it. */
export function lastDateTaken(settings: Pick<Settings, "asOf" | "timeZone">, now: Date): IsoDate {
  const today = dateIn(settings.timeZone, now);
  return settings.asOf !== null && settings.asOf > today ? settings.asOf : today;
}

/** The instant at which a calendar date begins in a time zone; where a clock change skips midnight, the first one after it. */
export function startOfDate(timeZone: string, date: IsoDate): Date {
  const utc = Date.parse(`${date}T00:00:00Z`);
  // No zone is further than 14 hours from UTC: the first quarter of an hour of that date is looked for.
  const quarterMs = 15 * 60_000;
  let [low, high] = [utc / quarterMs - 60, utc / quarterMs + 60];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (dateIn(timeZone, new Date(middle * quarterMs)) < date) low = middle;
    else high = middle;
  }
  return new Date(high * quarterMs);
}
