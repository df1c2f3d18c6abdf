import { daysBetween } from "../../../lib/calendar.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { FleetGroup, FleetGrouping, FleetRow } from "../../../lib/schema/report.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords } from "../../../lib/wording.ts";

/** The last test of a row: its date, and its age or that the next one is overdue. */
export function lastTestWords(
  row: FleetRow,
  asOf: IsoDate,
  f: Formats,
): { readonly date: string; readonly age: string } {
  if (row.lastTestDate === null) return { date: "never", age: "" };
  const date = f.shortDate(row.lastTestDate, asOf);
  return { date, age: row.testOverdue ? "overdue" : f.days(daysBetween(row.lastTestDate, asOf)) };
}

/** When the next test is due: its date, and how far that is away. */
export function nextTestWords(
  row: FleetRow,
  asOf: IsoDate,
  f: Formats,
): { readonly date: string; readonly away: string } {
  if (row.nextTestDue === null) return { date: "not set", away: "" };
  const days = daysBetween(asOf, row.nextTestDue);
  return {
    date: f.shortDate(row.nextTestDue, asOf),
    away: days < 0 ? `${f.days(-days)} ago` : days === 0 ? "today" : `in ${f.days(days)}`,
  };
}

export const questionWords = (questions: number, f: Formats): string =>
  questions === 1 ? "asks you" : `asks you ${f.number(questions)}`;

/**
 * How many units a group has, and what of it is due: "8 units, 1 past limit and 3 likely due within a year". A group
 * whose name says that its units are past their limits says so once.
 */
export function groupWords(
  { units, pastLimit, soon }: FleetGroup,
  { grouping, within, f }: { readonly grouping: FleetGrouping; readonly within: string; readonly f: Formats },
): string {
  const count = `${f.number(units)} ${units === 1 ? "unit" : "units"}`;
  if (grouping === "band" && pastLimit > 0) return count;
  const due = [
    pastLimit > 0 ? `${f.number(pastLimit)} past limit` : null,
    soon > 0 ? `${f.number(soon)} likely due within ${within}` : null,
  ].filter((words) => words !== null);
  return `${count}, ${due.length === 0 ? `none likely due within ${within}` : listWords(due)}`;
}
