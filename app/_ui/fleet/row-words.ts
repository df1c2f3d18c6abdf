import { daysBetween } from "../../../lib/calendar.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { FleetRow } from "../../../lib/schema/report.ts";
import { formatDays, formatShortDate } from "../formats.ts";

/** The last test of a row: its date, and its age or that the next one is overdue. */
export function lastTestWords(row: FleetRow, asOf: IsoDate): { readonly date: string; readonly age: string } {
  if (row.lastTestDate === null) return { date: "never", age: "" };
  const date = formatShortDate(row.lastTestDate, asOf);
  return { date, age: row.testOverdue ? "overdue" : formatDays(daysBetween(row.lastTestDate, asOf)) };
}

export const questionWords = (questions: number): string => (questions === 1 ? "asks you" : `asks you ${questions}`);
