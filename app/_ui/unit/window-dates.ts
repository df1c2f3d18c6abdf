import type { Crossing } from "@/lib/schema/assessment.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { crossingWords } from "./unit-words.ts";

/** "Mar 2027, Sep 2027, Feb 2028": a window as the tables of the page tell it; days only where it is short. */
export function windowDates({ status, date }: Crossing, f: Formats): string {
  if (status !== "projected") return crossingWords[status];
  const { p10, p50, p90 } = date;
  return [p10, p50, p90].map((day) => (day === null ? "beyond the horizon" : f.forecast(day, p10, p90))).join(", ");
}
