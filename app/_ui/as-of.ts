import type { IsoDate } from "../../lib/schema/facts.ts";
import type { Settings } from "../../lib/schema/settings.ts";

/** The calendar date in a time zone (IANA name) at an instant. */
export function dateInZone(instant: Date, timeZone: string): IsoDate {
  const format = new Intl.DateTimeFormat("en", { timeZone, year: "numeric", month: "2-digit", day: "2-digit" });
  const parts = new Map(format.formatToParts(instant).map((part) => [part.type, part.value]));
  return (["year", "month", "day"] as const).map((type) => parts.get(type)).join("-");
}

/** The date for which the fleet is told: the one fixed in the settings, else today in the fleet's time zone. */
export const asOfDate = (settings: Pick<Settings, "asOf" | "timeZone">, now: Date): IsoDate =>
  settings.asOf ?? dateInZone(now, settings.timeZone);
