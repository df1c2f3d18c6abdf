import { daysBetween } from "../calendar.ts";
import { minorDigits, noCurrency } from "../schema/currency.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { MeterUnit } from "../schema/words.ts";
import {
  changeDigits,
  pressureDigits,
  rateBase,
  shownMeterFactor,
  shownMeterUnit,
  shownPressureFactor,
} from "./measures.ts";
import type { Preferences } from "./preferences.ts";
import { wordsFor } from "./sentences.ts";
import { writtenDate, writtenMonth, writtenNumber } from "./written.ts";

type LevelUnit = "kPa" | "%";

/**
 * How one viewer reads figures and dates. All arguments are canonical: kPa, %, a meter in its unit's own meter unit,
 * ISO dates, probabilities from 0 to 1. A figure and its unit are never parted at a line's end.
 */
export interface Formats {
  readonly preferences: Preferences;
  /** "9 Nov 2026" */
  date(date: IsoDate): string;
  /** "9 Nov", or "9 Nov ’25" when the year is not that of `asOf`; formats of digits alone keep the year. */
  shortDate(date: IsoDate, asOf: IsoDate): string;
  /** "Nov 2026" */
  month(date: IsoDate): string;
  /** A forecast date: its month; the day as well only where early and late are under ten weeks apart. */
  forecast(date: IsoDate, early: IsoDate | null, late: IsoDate | null): string;
  /** The same with its preposition: "on 2 Oct 2026", "in Oct 2026". */
  forecastIn(date: IsoDate, early: IsoDate | null, late: IsoDate | null): string;
  /** "1,010.5", with a true minus */
  number(value: number, digits?: number): string;
  /** "22 %" of 22 */
  percent(percent: number, digits?: number): string;
  /** "74 %" of 0.74; "under 1 %" and "over 99 %" for what is neither impossible nor certain. */
  probability(probability: number): string;
  /** "148,600 km" */
  meter(value: number, unit: MeterUnit, digits?: number): string;
  /** A meter reading that is forecast: no finer than hundreds of km or miles, or tens of hours. */
  forecastMeter(value: number, unit: MeterUnit): string;
  /** Use a week, rounded to what a planner would say: "610 km", "14 h", "0.4 h". */
  weeklyUse(perDay: number, unit: MeterUnit): string;
  /** A level or limit: "22 %", "1,010 kPa". `digits` are those of the canonical figure. */
  level(value: number, unit: LevelUnit, digits?: number): string;
  /** The same without its unit, for a column whose head names it. */
  levelFigure(value: number, unit: LevelUnit, digits?: number): string;
  /** "550 kPa" */
  pressure(kpa: number): string;
  /** "3.0 points per 10,000 km", "−12 kPa per 1,000 h" */
  rate(perThousand: number, unit: LevelUnit, meterUnit: MeterUnit): string;
  /** The figure of a rate alone, in the same terms as `rate`. */
  rateFigure(perThousand: number, unit: LevelUnit, meterUnit: MeterUnit): string;
  /** "per 10,000 km" */
  ratePer(meterUnit: MeterUnit): string;
  /** An amount in minor units of a currency (ISO 4217), "1,250" or "EUR 1,250": without decimals from 100 on; XXX names none. */
  money(minor: number, currency: string): string;
  /** "1 day", "12 days" */
  days(count: number): string;
  /** The unit's name as it is shown. */
  meterUnit(unit: MeterUnit): MeterUnit;
  levelUnit(unit: LevelUnit): Preferences["pressure"] | "%";
  /** What a canonical figure is multiplied by to be shown; for the round ticks of an axis. */
  meterFactor(unit: MeterUnit): number;
  levelFactor(unit: LevelUnit): number;
  /** A kept sentence with its figures, units and dates in these formats. Not for what people typed. */
  words(sentence: string): string;
  /** These formats, whose `words` leave names that people typed as they stand. */
  knowing(names: readonly (string | null)[]): Formats;
}

const noBreak = "\u00a0";

/** Of a rate in points: one decimal below ten, and one more where a distance is but 1,000. */
const pointDigits = (change: number, base: number, meter: MeterUnit): number =>
  (Math.abs(change) < 10 ? 1 : 0) + (meter !== "h" && base === 1_000 ? 1 : 0);

/** Early and late so near to each other that the day of a forecast means something. */
const isByDay = (early: IsoDate | null, late: IsoDate | null): boolean =>
  early !== null && late !== null && daysBetween(early, late) < 70;

/** The formats that a viewer's preferences ask for. `known`: names that `words` leaves as they stand. */
export function formatsOf(preferences: Preferences, known: readonly string[] = []): Formats {
  const { pressure, dates, numbers } = preferences;
  const number = (value: number, digits = 0) => writtenNumber(value, digits, numbers);
  const withUnit = (value: number, unit: string, digits = 0) => `${number(value, digits)}${noBreak}${unit}`;
  const date = (day: IsoDate) => writtenDate(day, dates);
  const month = (day: IsoDate) => writtenMonth(day, dates);
  const meterUnit = (unit: MeterUnit) => shownMeterUnit(unit, preferences);
  const meterFactor = (unit: MeterUnit) => shownMeterFactor(unit, preferences);
  const levelUnit = (unit: LevelUnit) => (unit === "%" ? "%" : pressure);
  const levelFactor = (unit: LevelUnit) => (unit === "%" ? 1 : shownPressureFactor(preferences));
  const levelDigits = (unit: LevelUnit, digits: number) => digits + (unit === "%" ? 0 : pressureDigits[pressure]);
  const percent = (value: number, digits = 0) => withUnit(value, "%", digits);
  const levelFigure = (value: number, unit: LevelUnit, digits = 0) =>
    number(value * levelFactor(unit), levelDigits(unit, digits));
  const level = (value: number, unit: LevelUnit, digits = 0) =>
    `${levelFigure(value, unit, digits)}${noBreak}${levelUnit(unit)}`;
  const rateFigure = (perThousand: number, unit: LevelUnit, meter: MeterUnit) => {
    const base = rateBase(meterUnit(meter), preferences);
    const change = (((perThousand * base) / 1_000) * levelFactor(unit)) / meterFactor(meter);
    return number(change, unit === "%" ? pointDigits(change, base, meter) : changeDigits(change, pressure));
  };
  const ratePer = (unit: MeterUnit) => `per ${withUnit(rateBase(meterUnit(unit), preferences), meterUnit(unit))}`;
  return {
    preferences,
    date,
    month,
    number,
    percent,
    level,
    levelFigure,
    rateFigure,
    ratePer,
    meterUnit,
    meterFactor,
    levelUnit,
    levelFactor,
    shortDate(day, asOf) {
      if (dates !== "d-mon-yyyy" && dates !== "mon-d-yyyy") return date(day);
      const [short = "", year = ""] = date(day).split(/,? (?=\d{4}$)/);
      return year === asOf.slice(0, 4) ? short : `${short} ’${year.slice(2)}`;
    },
    forecast: (day, early, late) => (isByDay(early, late) ? date(day) : month(day)),
    forecastIn: (day, early, late) => (isByDay(early, late) ? `on ${date(day)}` : `in ${month(day)}`),
    probability(probability) {
      if (probability > 0 && probability < 0.01) return `under${noBreak}1${noBreak}%`;
      if (probability < 1 && probability > 0.99) return `over${noBreak}99${noBreak}%`;
      return percent(probability * 100);
    },
    meter: (value, unit, digits = 0) => withUnit(value * meterFactor(unit), meterUnit(unit), digits),
    forecastMeter(value, unit) {
      const grain = unit === "h" ? 10 : 100;
      return withUnit(Math.round((value * meterFactor(unit)) / grain) * grain, meterUnit(unit));
    },
    weeklyUse(perDay, unit) {
      const week = perDay * 7 * meterFactor(unit);
      if (week >= 100) return withUnit(Math.round(week / 10) * 10, meterUnit(unit));
      return withUnit(week, meterUnit(unit), week > 0 && week < 1 ? 1 : 0);
    },
    money(minor, currency) {
      const digits = minorDigits(currency);
      const amount = minor / 10 ** digits;
      const written = number(amount, Math.abs(amount) >= 99.5 || Number.isInteger(amount) ? 0 : digits);
      return currency === noCurrency ? written : `${currency}${noBreak}${written}`;
    },
    pressure: (kpa) => level(kpa, "kPa"),
    rate(perThousand, unit, meter) {
      const what = unit === "%" ? " points" : `${noBreak}${pressure}`;
      return `${rateFigure(perThousand, unit, meter)}${what} ${ratePer(meter)}`;
    },
    days: (count) => `${number(count)} ${count === 1 ? "day" : "days"}`,
    words: (sentence) => wordsFor(sentence, preferences, known),
    knowing: (names) => formatsOf(preferences, [...known, ...names.flatMap((name) => name || [])]),
  };
}
