import { addMonths, daysBetween } from "../../lib/calendar.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import { monthWords } from "../../lib/wording.ts";

/** The span of dates that an axis shows, from today on. */
export interface TimeSpan {
  readonly from: IsoDate;
  readonly to: IsoDate;
  readonly years: number;
}

interface TimeTick {
  readonly date: IsoDate;
  /** Place on the axis, per cent from its start. */
  readonly percent: number;
  /** 1 January. */
  readonly newYear: boolean;
  /** "2027" at the new year; "Apr" where there is room for it; else none. */
  readonly label: string | null;
}

export const timeSpan = (from: IsoDate, years: number): TimeSpan => ({ from, to: addMonths(from, 12 * years), years });

/** Where a date lies on the axis, per cent; below 0 or above 100 outside it. */
export const percentOf = (span: TimeSpan, date: IsoDate): number =>
  (100 * daysBetween(span.from, date)) / daysBetween(span.from, span.to);

/** Lines at the starts of quarters (of months on an axis of one year), labelled as far as they stand clear. */
export function timeTicks(span: TimeSpan): readonly TimeTick[] {
  const step = span.years <= 1 ? 1 : 3;
  const labelEvery = span.years <= 1 ? 3 : span.years <= 3 ? 3 : 6;
  const ticks: TimeTick[] = [];
  let date = `${span.from.slice(0, 7)}-01`;
  while (date <= span.to) {
    const month = Number(date.slice(5, 7)) - 1;
    if (date > span.from && month % step === 0) {
      const labelled = month % labelEvery === 0;
      ticks.push({
        date,
        percent: percentOf(span, date),
        newYear: month === 0,
        label: labelled ? (month === 0 ? date.slice(0, 4) : monthWords(date).slice(0, 3)) : null,
      });
    }
    date = addMonths(date, 1);
  }
  return ticks;
}
