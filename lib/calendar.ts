import type { IsoDate } from "./schema/facts.ts";

/** Calendar dates as ISO text, counted in whole days in the proleptic Gregorian calendar; no time zone enters. */

const msPerDay = 86_400_000;

/** Days since 1 January 1970. Throws on text that is not an ISO date. */
export function dayNumber(date: IsoDate): number {
  const year = Number(date.slice(0, 4));
  const month = Number(date.slice(5, 7));
  const day = Number(date.slice(8, 10));
  const ms = Date.UTC(year, month - 1, day);
  if (Number.isNaN(ms)) throw new Error(`not an ISO date: ${date}`);
  return Math.round(ms / msPerDay);
}

export const daysBetween = (from: IsoDate, to: IsoDate): number => dayNumber(to) - dayNumber(from);

const isoOfDay = (day: number): IsoDate => new Date(day * msPerDay).toISOString().slice(0, 10);

export const addDays = (date: IsoDate, days: number): IsoDate => isoOfDay(dayNumber(date) + days);

/** The first Monday from a date on, the date itself where it is one. */
export const mondayOnOrAfter = (date: IsoDate): IsoDate => {
  // 1 January 1970 was a Thursday.
  const sinceMonday = (((dayNumber(date) + 3) % 7) + 7) % 7;
  return addDays(date, (7 - sinceMonday) % 7);
};

/** The same day some months later; the last day of the month where that month is shorter. */
export function addMonths(date: IsoDate, months: number): IsoDate {
  const count = Number(date.slice(0, 4)) * 12 + Number(date.slice(5, 7)) - 1 + months;
  const year = Math.floor(count / 12);
  const month = count - year * 12;
  const lastOfMonth = new Date(Date.UTC(year, month + 1, 0)).getUTCDate();
  return isoOfDay(Math.round(Date.UTC(year, month, Math.min(Number(date.slice(8, 10)), lastOfMonth)) / msPerDay));
}

/** 0 Monday to 6 Sunday. 1 January 1970 was a Thursday. */
const weekday = (day: number): number => (((day + 3) % 7) + 7) % 7;

/** The week and the year it is counted in, by ISO 8601: weeks begin on Monday, week 1 holds 4 January. */
export function isoWeek(date: IsoDate): { readonly year: number; readonly week: number } {
  const day = dayNumber(date);
  const thursday = isoOfDay(day - weekday(day) + 3);
  const year = Number(thursday.slice(0, 4));
  return { year, week: Math.floor(daysBetween(`${thursday.slice(0, 4)}-01-01`, thursday) / 7) + 1 };
}

/** 52 or 53, by ISO 8601. */
export const weeksOfYear = (year: number): number => isoWeek(`${String(year).padStart(4, "0")}-12-28`).week;

/** Monday of an ISO 8601 week. Week 53 of a year that has 52 gives its last week. */
export function mondayOfWeek(year: number, week: number): IsoDate {
  const fourth = dayNumber(`${String(year).padStart(4, "0")}-01-04`);
  return isoOfDay(fourth - weekday(fourth) + 7 * (Math.min(week, weeksOfYear(year)) - 1));
}
