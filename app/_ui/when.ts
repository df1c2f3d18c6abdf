import type { Formats } from "../../lib/viewing/formats.ts";
import { dateIn } from "../_jobs/as-of.ts";

/** When something was done, where the fleet is: "9 Nov 2026, 14:05". */
export function whenWords(f: Formats, timeZone: string, at: string): string {
  const instant = new Date(at);
  const time = new Intl.DateTimeFormat("en-GB", { timeZone, hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
  return `${f.date(dateIn(timeZone, instant))}, ${time.format(instant)}`;
}
