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

/** The same day some months later; the last day of the month where that month is shorter. */
export function addMonths(date: IsoDate, months: number): IsoDate {
  const count = Number(date.slice(0, 4)) * 12 + Number(date.slice(5, 7)) - 1 + months;
  const year = Math.floor(count / 12);
  const month = count - year * 12;
  const lastOfMonth = new Date(Date.UTC(year, month + 1, 0)).getUTCDate();
  return isoOfDay(Math.round(Date.UTC(year, month, Math.min(Number(date.slice(8, 10)), lastOfMonth)) / msPerDay));
}
