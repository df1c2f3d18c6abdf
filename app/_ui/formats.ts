import { addDays, addMonths, daysBetween } from "../../lib/calendar.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import type { MeterUnit } from "../../lib/schema/words.ts";
import { dateWords as formatDate, monthWords as formatMonth, numberWords as formatNumber } from "../../lib/wording.ts";

export { dayNumber } from "../../lib/calendar.ts";
export {
  dateWords as formatDate,
  listWords,
  monthWords as formatMonth,
  numberWords as formatNumber,
  sentenceWords as sentenceCase,
} from "../../lib/wording.ts";

/**
 * How figures and dates are written on every page, beside the words that the findings themselves use (lib/wording.ts).
 * Dates are calendar dates; nothing here knows the clock.
 */

const noBreak = "\u00a0";

/** The date that lies a number of days after 1 January 1970. */
export const dateOfDay = (day: number): IsoDate => addDays("1970-01-01", day);

/** The same day some years later; 29 February becomes 28 February. */
export const yearsLater = (date: IsoDate, years: number): IsoDate => addMonths(date, 12 * years);

/** 9 Nov, or 9 Nov ’25 when the year is not that of `asOf`. */
export function formatShortDate(date: IsoDate, asOf: IsoDate): string {
  const [day, month, year = ""] = formatDate(date).split(" ");
  const short = `${day} ${month}`;
  return year === asOf.slice(0, 4) ? short : `${short} ’${year.slice(2)}`;
}

/** A forecast date: its month; the day as well only where early and late are under ten weeks apart. */
export function formatForecast(date: IsoDate, early: IsoDate | null, late: IsoDate | null): string {
  const narrow = early !== null && late !== null && daysBetween(early, late) < 70;
  return narrow ? formatDate(date) : formatMonth(date);
}

/** A figure and its unit, never parted at a line's end. */
const withUnit = (value: number, unit: string, digits = 0): string => `${formatNumber(value, digits)}${noBreak}${unit}`;

/** Words with each figure tied to its unit ("22 %", "1,010 kPa"), so that a line never ends between the two. */
export const unbroken = (words: string): string =>
  words.replace(/(\d) (?=(?:%|kPa|bar|psi|mm|h|km|mi)(?![a-z]))/g, `$1${noBreak}`);

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
