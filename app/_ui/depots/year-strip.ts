import { addDays, addMonths, daysBetween, isoWeek, mondayOfWeek, weeksOfYear } from "../../../lib/calendar.ts";
import { periodsWithin } from "../../../lib/depot-calendar.ts";
import type { DepotPeriod } from "../../../lib/schema/depot.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";

interface Mark {
  readonly percent: number;
  readonly label: string;
}

/** A year of whole ISO weeks as it is drawn: where its periods, months, weeks and today lie, in per cent of its width. */
export interface YearStripDrawing {
  readonly year: number;
  /** 52 or 53. */
  readonly weeks: number;
  readonly spans: readonly {
    readonly kind: DepotPeriod["kind"];
    readonly percent: number;
    readonly width: number;
  }[];
  /** Each first of a month, with the date for its label. */
  readonly months: readonly { readonly percent: number; readonly date: IsoDate }[];
  /** The left edges of some weeks, with their numbers. */
  readonly weekMarks: readonly Mark[];
  readonly today: number;
}

/** The ISO year that a date lies in, with what of a depot's periods falls into it; closed is drawn over peak. */
export function yearStrip(periods: readonly DepotPeriod[], asOf: IsoDate): YearStripDrawing {
  const { year } = isoWeek(asOf);
  const weeks = weeksOfYear(year);
  const from = mondayOfWeek(year, 1);
  const to = addDays(from, 7 * weeks - 1);
  const percent = (days: number) => (100 * days) / (7 * weeks);
  const at = (date: IsoDate) => percent(daysBetween(from, date));
  const spans = periodsWithin(periods, from, to)
    .map(({ kind, from: first, to: last }) => ({
      kind,
      percent: at(first),
      width: percent(daysBetween(first, last) + 1),
    }))
    .sort((a, b) => (a.kind === b.kind ? 0 : a.kind === "peak" ? -1 : 1));
  const firsts = Array.from({ length: 12 }, (_, month) => addMonths(`${String(year).padStart(4, "0")}-01-01`, month));
  return {
    year,
    weeks,
    spans,
    // Week 1 may begin with January well under way, or in December.
    months: firsts.map((date) => ({ percent: Math.max(0, at(date)), date })),
    weekMarks: [1, 10, 20, 30, 40, 50].map((week) => ({ percent: percent(7 * (week - 1)), label: String(week) })),
    today: at(asOf),
  };
}
