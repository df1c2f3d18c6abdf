import type { Formats } from "../../lib/viewing/formats.ts";
import { dateIn } from "../_jobs/as-of.ts";

/** The day on which something was done, where the fleet is. */
export const dayWords = (f: Formats, timeZone: string, at: string): string => f.date(dateIn(timeZone, new Date(at)));

/** When something was done, where the fleet is: "9 Nov 2026, 14:05". */
export function whenWords(f: Formats, timeZone: string, at: string): string {
  const time = new Intl.DateTimeFormat("en-GB", { timeZone, hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
  return `${dayWords(f, timeZone, at)}, ${time.format(new Date(at))}`;
}
