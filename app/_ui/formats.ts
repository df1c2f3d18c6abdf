import { addDays, addMonths, daysBetween } from "../../lib/calendar.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import type { MeterUnit } from "../../lib/schema/words.ts";

export { dayNumber } from "../../lib/calendar.ts";

/** How figures and dates are written on every page. Dates are calendar dates; nothing here knows the clock. */

// Own names: the English locale of the runtime writes "Sept".
const monthNames = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;

const noBreak = "\u00a0";
const minus = "\u2212";

/** The date that lies a number of days after 1 January 1970. */
export const dateOfDay = (day: number): IsoDate => addDays("1970-01-01", day);

/** The same day some years later; 29 February becomes 28 February. */
export const yearsLater = (date: IsoDate, years: number): IsoDate => addMonths(date, 12 * years);

const parts = (date: IsoDate) => ({
  year: date.slice(0, 4),
  month: monthNames[Number(date.slice(5, 7)) - 1] ?? "",
  day: Number(date.slice(8, 10)),
});

/** 9 Nov 2026 */
export function formatDate(date: IsoDate): string {
  const { year, month, day } = parts(date);
  return `${day} ${month.slice(0, 3)} ${year}`;
}

/** 9 Nov, or 9 Nov ’25 when the year is not that of `asOf`. */
export function formatShortDate(date: IsoDate, asOf: IsoDate): string {
  const { year, month, day } = parts(date);
  const short = `${day} ${month.slice(0, 3)}`;
  return year === asOf.slice(0, 4) ? short : `${short} ’${year.slice(2)}`;
}

/** Nov 2026 */
export function formatMonth(date: IsoDate): string {
  const { year, month } = parts(date);
  return `${month.slice(0, 3)} ${year}`;
}

/** A forecast date: its month; the day as well only where early and late are under ten weeks apart. */
export function formatForecast(date: IsoDate, early: IsoDate | null, late: IsoDate | null): string {
  const narrow = early !== null && late !== null && daysBetween(early, late) < 70;
  return narrow ? formatDate(date) : formatMonth(date);
}

/** 148,600 or −3.2; `digits` decimals, always that many. */
export function formatNumber(value: number, digits = 0): string {
  const rounded = Math.abs(value).toFixed(digits);
  const [whole = "", decimals] = rounded.split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ",");
  const sign = value < 0 && Number(rounded) !== 0 ? minus : "";
  return `${sign}${grouped}${decimals === undefined ? "" : `.${decimals}`}`;
}

/** A figure and its unit, never parted at a line's end. */
const withUnit = (value: number, unit: string, digits = 0): string => `${formatNumber(value, digits)}${noBreak}${unit}`;

/** 148,600 km */
export const formatMeter = (value: number, unit: MeterUnit): string => withUnit(value, unit);

/** 22 %; the value is in per cent. */
export const formatPercent = (percent: number, digits = 0): string => withUnit(percent, "%", digits);

/** 74 % of a probability of 0.74; never 0 % or 100 % for what is neither certain nor impossible. */
export function formatProbability(probability: number): string {
  if (probability > 0 && probability < 0.01) return `under${noBreak}1${noBreak}%`;
  if (probability < 1 && probability > 0.99) return `over${noBreak}99${noBreak}%`;
  return formatPercent(probability * 100);
}

/** A level or limit in its measure's unit: 22 %, 1,010 kPa. */
export const formatLevel = (value: number, unit: "kPa" | "%"): string => withUnit(value, unit);

/** Use a week, rounded to what a planner would say: 610 km, 14 h, 0.4 h. */
export function formatWeeklyUse(perDay: number, unit: MeterUnit): string {
  const week = perDay * 7;
  if (week >= 100) return withUnit(Math.round(week / 10) * 10, unit);
  return withUnit(week, unit, week > 0 && week < 1 ? 1 : 0);
}

/** A rate of change as people of the trade read it: "3 points per 10,000 km", "−12 kPa per 1,000 h". */
export function formatRate(perThousand: number, unit: "kPa" | "%", meterUnit: MeterUnit): string {
  const by = meterUnit === "h" ? 1_000 : 10_000;
  const change = (perThousand * by) / 1_000;
  const digits = Math.abs(change) < 10 && unit === "%" ? 1 : 0;
  const what = unit === "%" ? `${formatNumber(change, digits)} points` : withUnit(change, unit, digits);
  return `${what} per ${withUnit(by, meterUnit)}`;
}

/** 1 day, 12 days */
export const formatDays = (days: number): string => `${formatNumber(days)} ${days === 1 ? "day" : "days"}`;

const smallNumbers = [
  "no",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
] as const;

/** A count within a sentence: words up to twelve, figures beyond. */
export const countWord = (count: number): string => smallNumbers[count] ?? formatNumber(count);

/** The sentence with its first letter raised. */
export const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "cyl 1, 4" and the like: "a, b and c". */
export function listWords(items: readonly string[]): string {
  if (items.length < 2) return items.join("");
  return `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}
