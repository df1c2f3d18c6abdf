import { mostCylinders } from "../schema/rows.ts";
import { measures } from "../schema/words.ts";
import { convertField, convertReading, type FigureForms } from "./convert-cell.ts";
import { readDate } from "./dates.ts";
import type { Meaning } from "./synonyms.ts";
import { isBlankWord, measureIn, placesIn, yesNoOf } from "./trade-words.ts";
import { meterUnitOf, splitUnit, valueUnitOf } from "./unit-words.ts";

/** What stands in a column, as far as it tells what the column is. */

/** Cells that say something, as written. */
export const filled = (texts: readonly string[]): readonly string[] =>
  texts.map((text) => text.trim()).filter((text) => !isBlankWord(text));

/** Forms are found later; here any number and date will do. */
const anyForm: FigureForms = { dateOrder: null, decimalSign: null };

const isDate = (text: string) => readDate(text).is !== "other";
/** A day number could be a meter reading as well: only written dates speak for a date. */
const isWrittenDate = (text: string) => isDate(text) && !/^\d+([.,]\d+)?$/.test(text);
const isFigure = (text: string) =>
  /\d/.test(text) && !isWrittenDate(text) && convertReading(text, "leak-down", null).is !== "blank" && isNumeric(text);
const isNumeric = (text: string) => {
  const { figure } = splitUnit(text);
  return /^[+-]?[\d.,' \u00a0\u202f\u2009/’]+$/.test(figure) && /\d/.test(figure);
};

const fits: Record<Meaning, (text: string) => boolean> = {
  unit: (text) => !isWrittenDate(text),
  engine_model: (text) => /\p{L}/u.test(text) && !isWrittenDate(text),
  test_date: isDate,
  meter: isFigure,
  meter_unit: (text) => meterUnitOf(text) !== null,
  test: (text) => measureIn(text) !== null,
  cylinder: (text) => {
    const cell = convertField("cylinder", text, anyForm);
    const number = cell.ok && /^\d+$/.test(cell.text) ? Number(cell.text) : 0;
    return number >= 1 && number <= mostCylinders;
  },
  value: isFigure,
  value_unit: (text) => valueUnitOf(text) !== null,
  attempt: (text) => /^\d{1,2}$/.test(text),
  supply: isFigure,
  orifice_mm: isFigure,
  heard_at: (text) => placesIn(text) !== null,
  warm: (text) => yesNoOf(text) !== null,
  throttle_open: (text) => yesNoOf(text) !== null,
  all_plugs_out: (text) => yesNoOf(text) !== null,
  tdc_confirmed: (text) => yesNoOf(text) !== null,
  gauge_zeroed: (text) => yesNoOf(text) !== null,
  cranking_rpm: isFigure,
  altitude_m: isFigure,
  barometer_kpa: isFigure,
  first_stroke: isFigure,
  order: (text) => /^\d{1,2}$/.test(text),
  depot: (text) => /\p{L}/u.test(text) && !isWrittenDate(text),
  engine_serial: (text) => !isWrittenDate(text),
  tested_by: (text) => /\p{L}/u.test(text) && !isWrittenDate(text),
  instrument: (text) => !isWrittenDate(text),
  remarks: () => true,
  ignored: () => true,
};

/** Most cells of a column fit its meaning; a slip here and there is told row by row. */
const most = 0.6;
/** In so few cells a slip weighs too much: one that fits will do. */
const few = 4;

/** Whether what stands in a column fits a meaning. A column without any content fits what its heading says. */
export function contentFits(meaning: Meaning, texts: readonly string[]): boolean {
  // Nothing heard is something heard of.
  const cells = meaning === "heard_at" ? texts.filter((text) => text.trim() !== "") : filled(texts);
  const fitting = cells.filter(fits[meaning]).length;
  return fitting >= most * cells.length || (cells.length <= few && fitting > 0);
}

/** What a column is by its content alone; null: it could be many things. */
export function meaningByContent(texts: readonly string[]): Meaning | null {
  const cells = filled(texts);
  if (cells.length === 0) return null;
  const all = (test: (text: string) => boolean) => cells.every(test);
  if (all(isWrittenDate)) return "test_date";
  if (all((text) => measures.some((measure) => measure === measureIn(text)))) return "test";
  if (all((text) => meterUnitOf(text) !== null)) return "meter_unit";
  if (all((text) => valueUnitOf(text) !== null)) return "value_unit";
  return null;
}

/** Whether the numbers of a column begin again, as cylinders do from one engine to the next, and row numbers do not. */
export function numbersBeginAgain(texts: readonly string[]): boolean {
  const cells = filled(texts);
  return cells.filter((text) => Number(text) === 1).length > 1 && Math.max(...cells.map(Number)) <= mostCylinders;
}
