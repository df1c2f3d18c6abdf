import type { IsoDate } from "../../lib/schema/facts.ts";
import type { Settings } from "../../lib/schema/settings.ts";

/** The calendar date in a time zone (IANA name) at an instant. */
export function dateInZone(instant: Date, timeZone: string): IsoDate {
  const parts = new Intl.DateTimeFormat("en", { timeZone, year: "numeric", month: "2-digit", day: "2-digit" });
  const found = Object.fromEntries(parts.formatToParts(instant).map((part) => [part.type, part.value]));
  return `${found["year"]}-${found["month"]}-${found["day"]}`;
}

/** The date for which the fleet is told: the one fixed in the settings, else today in the fleet's time zone. */
export const asOfDate = (settings: Pick<Settings, "asOf" | "timeZone">, now: Date): IsoDate =>
  settings.asOf ?? dateInZone(now, settings.timeZone);
