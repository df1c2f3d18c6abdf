import type { MeterUnit } from "../schema/words.ts";
import { pressureDigits, rateBase, shownMeterFactor, shownMeterUnit, shownPressureFactor } from "./measures.ts";
import type { Preferences } from "./preferences.ts";
import { separated, writtenDate, writtenNumber } from "./written.ts";

/**
 * Kept sentences in the viewer's terms. They were made by lib/wording.ts in one notation (1,010.5; kPa; 9 Nov 2026), so
 * what is a figure with its unit can be told from the text; figures that share a unit stand in a list before it
 * ("990 and 1,010 kPa", "from 990 to 1,010 kPa").
 */

// A figure from 1,000 on has its comma, so that a year or a serial number is none.
const number = String.raw`−?\d{1,3}(?:,\d{3})*(?:\.\d+)?(?!\d)`;
const notInWord = String.raw`(?<![\p{L}\d.,_-])`;
const between = "(?:, | and | to | or |–)";
const list = `(?:${number}${between})*${number}`;
const wordEnd = String.raw`(?!\.?[\p{L}\d_-])`;

const quantity = new RegExp(
  [
    `${notInWord}(?<rise>${list}) (?<what>points|%|kPa) per (?<base>1,000|10,000) (?<meter>km|mi|h)${wordEnd}`,
    `${notInWord}(?<figures>${list}) (?<unit>kPa|km|mi)${wordEnd}`,
    String.raw`${notInWord}(?<day>\d{1,2}) (?<month>Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec) (?<year>\d{4})${wordEnd}`,
    `${notInWord}(?<plain>${number})${wordEnd}`,
  ].join("|"),
  "gu",
);

const figure = new RegExp(number, "gu");
const numberIn = (text: string): number => Number(text.replaceAll(",", "").replace("−", "-"));
const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** Cylinders may stand in a list before the figures: "cylinders 2 and 3, 990 kPa". */
const mostCylinders = 16;
const afterCylinders = /\bcyl(?:inder)?s? $/iu;
/** What is said of how far at a time is told roughly; how far it was, to the whole unit. */
const roughly = /\b(?:every|about|the last) $/u;

/**
 * The sentence with its figures, units and dates as the viewer wants them, and no line's end between figure and unit.
 * `names`: what people typed and the sentence may hold (serials, depots, instruments); they stay letter by letter.
 */
export function wordsFor(sentence: string, preferences: Preferences, names: readonly string[] = []): string {
  // Longer ones first, for one name may be the beginning of another. A name without a figure is never touched.
  const hidden = [...new Set(names)]
    .filter((name) => /\d/.test(name) && sentence.includes(name))
    .sort((a, b) => b.length - a.length)
    .slice(0, mostPlaceholders);
  const covered = hidden.reduce((text, name, i) => text.replace(whole(name), placeholder(i)), sentence);
  const told = rewritten(covered, preferences);
  return hidden.reduce((text, name, i) => text.replaceAll(placeholder(i), () => name), told);
}

/** Of the private use area of Unicode: no text that people type holds these, and no pattern here takes them for a figure. */
const firstPlaceholder = 0xe000;
const mostPlaceholders = 0x1900;

const unitBehind = String.raw`\s?(?:kPa|%|km|mi|h|points)(?![\p{L}\d])`;
const plainFigure = /^[−-]?\d[\d.,]*$/u;

/**
 * A name where it stands as a whole, no part of a word or figure. A name that is a figure and nothing else ("4.108") is not
 * told from a reading but by the unit behind it, or behind the list of figures that it stands in.
 */
function whole(name: string): RegExp {
  const letters = name.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
  const notAReading = plainFigure.test(name) ? `(?!(?:${between}${number})*${unitBehind})` : "";
  return new RegExp(String.raw`(?<![\p{L}\d]|\d[.,])${letters}(?![\p{L}\d]|[.,]\d)${notAReading}`, "gu");
}

const placeholder = (i: number) => String.fromCharCode(firstPlaceholder + i);

function rewritten(sentence: string, preferences: Preferences): string {
  const told = sentence.replace(quantity, (found, ...rest) => {
    const groups = rest.at(-1) as Readonly<Record<string, string | undefined>>;
    const before = sentence.slice(0, rest.at(-3) as number);
    const least = afterCylinders.test(before) ? mostCylinders : -1;
    const { rise, what, base, meter, figures, unit, day, month, year, plain } = groups;
    if (rise !== undefined && what !== undefined && base !== undefined) {
      return rateWords(rise, what, numberIn(base), meter as MeterUnit, preferences);
    }
    if (figures !== undefined && unit === "kPa") return pressureWords(figures, least, preferences);
    if (figures !== undefined)
      return distanceWords(figures, { unit: unit as MeterUnit, least, isRough: roughly.test(before) }, preferences);
    if (day !== undefined && month !== undefined) {
      const monthNumber = String(months.indexOf(month) + 1).padStart(2, "0");
      return writtenDate(`${year}-${monthNumber}-${day.padStart(2, "0")}`, preferences.dates);
    }
    return plain === undefined ? found : separated(plain, preferences.numbers);
  });
  return told.replace(/(\d) (?=(?:%|kPa|bar|psi|mm|h|km|mi)(?![\p{L}]))/gu, "$1\u00a0");
}

/** Every figure of a list anew; those too low to be one of the quantity stay as they are. */
const each = (figures: string, least: number, write: (text: string) => string): string =>
  figures.replace(figure, (text, offset: number) =>
    Math.abs(numberIn(text)) > least || offset + text.length === figures.length ? write(text) : text,
  );

function pressureWords(figures: string, least: number, preferences: Preferences): string {
  const { pressure, numbers } = preferences;
  const factor = shownPressureFactor(preferences);
  const write = (text: string) =>
    pressure === "kPa"
      ? separated(text, numbers)
      : writtenNumber(numberIn(text) * factor, decimalsOf(text) + pressureDigits[pressure], numbers);
  return `${each(figures, least, write)} ${pressure}`;
}

function distanceWords(
  figures: string,
  { unit, least, isRough }: { readonly unit: MeterUnit; readonly least: number; readonly isRough: boolean },
  preferences: Preferences,
): string {
  const shown = shownMeterUnit(unit, preferences);
  const factor = shownMeterFactor(unit, preferences);
  const write = (text: string) => {
    if (shown === unit) return separated(text, preferences.numbers);
    const value = numberIn(text) * factor;
    return writtenNumber(isRough ? Number(value.toPrecision(2)) : value, decimalsOf(text), preferences.numbers);
  };
  return `${each(figures, least, write)} ${shown}`;
}

function rateWords(rise: string, what: string, base: number, meter: MeterUnit, preferences: Preferences): string {
  const shown = shownMeterUnit(meter, preferences);
  const per = rateBase(shown, preferences);
  const byMeter = per / base / shownMeterFactor(meter, preferences);
  const pressure = what === "kPa";
  const factor = byMeter * (pressure ? shownPressureFactor(preferences) : 1);
  // A tenth of the meter leaves a tenth of the change, which wants one more decimal.
  const digits = (text: string, change: number) =>
    pressure ? decimalsFor(change, figuresOf(text)) : decimalsOf(text) + (per < base ? 1 : 0);
  const write = (text: string) => {
    // As it was kept: no figure was measured that is not written.
    if (factor === 1) return separated(text, preferences.numbers);
    const change = numberIn(text) * factor;
    return writtenNumber(change, digits(text, change), preferences.numbers);
  };
  const unit = pressure ? preferences.pressure : what;
  return `${each(rise, -1, write)} ${unit} per ${writtenNumber(per, 0, preferences.numbers)} ${shown}`;
}

/** How many figures of a number are told, from its first that is not 0. */
const figuresOf = (text: string): number => Math.max(1, text.replace(/[^\d]/g, "").replace(/^0+/, "").length);

/** The decimals that tell a number to so many figures, up to 4. */
const decimalsFor = (value: number, figures: number): number =>
  value === 0 ? 0 : Math.min(4, Math.max(0, figures - 1 - Math.floor(Math.log10(Math.abs(value)))));

const decimalsOf = (text: string): number => text.split(".")[1]?.length ?? 0;
