import { addDays } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { DateOrder } from "./layout.ts";

/** Dates as people write them, to ISO. Day, month and year in figures need an order; months in letters need none. */

const months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const monthOf = (word: string): number => months.indexOf(word.slice(0, 3).toLowerCase()) + 1;
const monthName =
  "(jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)";

export const weekday = /^(?:mon|tue|tues|wed|wednes|thu|thur|thurs|fri|sat|satur|sun)(?:day)?[.,]?\s+/i;
const dayMonthName = new RegExp(
  String.raw`^(\d{1,2})(?:st|nd|rd|th)?[\s.\-/]*${monthName}[\s.,\-/]*(\d{4}|\d{2})$`,
  "i",
);
const monthNameDay = new RegExp(
  String.raw`^${monthName}[\s.\-/]*(\d{1,2})(?:st|nd|rd|th)?[\s,\-/]+(\d{4}|\d{2})$`,
  "i",
);
const yearMonthName = new RegExp(String.raw`^(\d{4})[\s.\-/]*${monthName}[\s.\-/]*(\d{1,2})$`, "i");
export const figures = /^(\d{1,4})([./-]|\s)\s*(\d{1,2})\2\s*(\d{1,4})$/;
const compact = /^((?:19|20)\d{2})(\d{2})(\d{2})$/;
const timeAfter = /^(.*?\d)(?:T|,?\s+)(\d{1,2}):(\d{2})(:\d{2})?(?:\.\d+)?\s*([ap]\.?m\.?)?(?:Z|[+-]\d{2}:?\d{2})?$/i;

/** Two digits of a year: to 69 of this century, from 70 of the last (POSIX). */
const fullYear = (year: string): number =>
  year.length > 2 ? Number(year) : Number(year) + (Number(year) < 70 ? 2000 : 1900);

function isoOf(year: number, month: number, day: number): IsoDate | null {
  const date = new Date(Date.UTC(year, month - 1, day));
  if (month < 1 || month > 12 || date.getUTCDate() !== day || year < 1900) return null;
  return date.toISOString().slice(0, 10);
}

/** 1 January 1950 and 31 December 2099 by the count below. */
export const [leastDayNumber, mostDayNumber] = [18_264, 73_050];

/**
 * A day number of a spreadsheet (1900 system) as a date, from 1950 to 2099. Day 60 stands for 29 February 1900, which
 * never was, so that all later numbers are one too high for a count from 1 January 1900.
 */
function ofDayNumber(text: string): DateRead | null {
  const parts = /^(\d{5})(?:[.,](\d+))?$/.exec(text);
  if (parts === null) return null;
  const [day, fraction] = [Number(parts[1]), parts[2]];
  if (day < leastDayNumber || day > mostDayNumber) return null;
  const date = addDays("1899-12-30", day);
  if (fraction === undefined || Number(fraction) === 0) return { is: "date", text: date };
  const minutes = Math.min(Math.round(Number(`0.${fraction}`) * 1440), 1439);
  const two = (n: number) => String(n).padStart(2, "0");
  return { is: "date", text: `${date} ${two(Math.floor(minutes / 60))}:${two(minutes % 60)}` };
}

export type DateRead =
  /** As the contract writes it, with the time of day where one was given. */
  | { readonly is: "date"; readonly text: string }
  /** Which date it is depends on the order of day, month and year, by which it may be any of these. */
  | { readonly is: "by-order"; readonly dates: ReadonlyMap<DateOrder, string> }
  | { readonly is: "other" };

/** Nobody writes a longer date. */
const longestDate = 48;

const other: DateRead = { is: "other" };

/** The time of day that follows a date, as `HH:MM`. */
export function splitTime(text: string): { readonly day: string; readonly time: string } | null {
  const parts = timeAfter.exec(text);
  if (parts === null) return { day: text, time: "" };
  const [, day = "", hour = "", minute = "", seconds = "", half = ""] = parts;
  const afternoon = /^p/i.test(half);
  if (half !== "" && (Number(hour) < 1 || Number(hour) > 12)) return null;
  const hours = half === "" ? Number(hour) : (Number(hour) % 12) + (afternoon ? 12 : 0);
  if (hours > 23 || Number(minute) > 59) return null;
  return { day, time: ` ${String(hours).padStart(2, "0")}:${minute}${seconds}` };
}

function ofNamedMonth(day: string): IsoDate | null | undefined {
  const dmy = dayMonthName.exec(day);
  if (dmy !== null) return isoOf(fullYear(dmy[3] as string), monthOf(dmy[2] as string), Number(dmy[1]));
  const mdy = monthNameDay.exec(day);
  if (mdy !== null) return isoOf(fullYear(mdy[3] as string), monthOf(mdy[1] as string), Number(mdy[2]));
  const ymd = yearMonthName.exec(day);
  if (ymd !== null) return isoOf(Number(ymd[1]), monthOf(ymd[2] as string), Number(ymd[3]));
  return undefined;
}

/** Every date that the figures can be by the orders of day, month and year in use. */
function ofFigures(day: string): { readonly fixed: IsoDate } | ReadonlyMap<DateOrder, IsoDate> | null {
  const together = compact.exec(day);
  const [, a = "", sign = "", b = "", c = ""] = figures.exec(day) ?? [];
  if (together !== null || (a.length === 4 && c.length < 3 && c !== "")) {
    const [year, month, dayOf] = together === null ? [a, b, c] : together.slice(1);
    const fixed = isoOf(Number(year), Number(month), Number(dayOf));
    return fixed === null ? null : { fixed };
  }
  if (a === "" || a.length > 2 || (c.length !== 4 && c.length !== 2)) return null;
  const dates = new Map<DateOrder, IsoDate>();
  const put = (order: DateOrder, date: IsoDate | null) => {
    if (date !== null) dates.set(order, date);
  };
  put("day-first", isoOf(fullYear(c), Number(b), Number(a)));
  put("month-first", isoOf(fullYear(c), Number(a), Number(b)));
  // Nobody writes two digits of the year first but with hyphens, as ISO has it.
  if (c.length === 2 && a.length === 2 && sign === "-") put("year-first", isoOf(fullYear(a), Number(b), Number(c)));
  return dates.size === 0 ? null : dates;
}

/** What a cell can be as a date, before the order is known. */
export function readDate(given: string): DateRead {
  const text = given.trim();
  if (text.length > longestDate) return other;
  const numbered = ofDayNumber(text);
  if (numbered !== null) return numbered;
  const parts = splitTime(text.replace(weekday, ""));
  if (parts === null) return other;
  const { day, time } = parts;
  const named = ofNamedMonth(day);
  if (named !== undefined) return named === null ? other : { is: "date", text: `${named}${time}` };
  const found = ofFigures(day);
  if (found === null) return other;
  if ("fixed" in found) return { is: "date", text: `${found.fixed}${time}` };
  return { is: "by-order", dates: new Map([...found].map(([order, date]) => [order, `${date}${time}`])) };
}
