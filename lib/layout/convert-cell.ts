import { type Columns, longColumns } from "../schema/rows.ts";
import type { Measure, ValueUnit } from "../schema/words.ts";
import { readDate } from "./dates.ts";
import type { DateOrder, DecimalSign, LayoutField } from "./layout.ts";
import { readNumber } from "./numbers.ts";
import { isBlankWord, measureIn, placesIn, yesNoOf } from "./trade-words.ts";
import { isUnit, meterUnitOf, splitUnit, valueUnitIn, valueUnitOf } from "./unit-words.ts";

/**
 * Cells as people write them to cells of the contract. What cannot be made out is given on as it is, so that intake
 * refuses it as it would in a file of the contract; only what intake would read as another value is a fault here.
 */

/** How the figures of a file are to be read; null: not known. */
export interface FigureForms {
  readonly dateOrder: DateOrder | null;
  readonly decimalSign: DecimalSign | null;
}

export type CellDoubt =
  /** `12,480` without a known decimal sign. */
  | "number-ambiguous"
  /** `12.5` where the layout says that commas are decimal signs. */
  | "number-other-sign"
  /** `03/04/2026` without a known order of day and month. */
  | "date-ambiguous"
  /** A supply without a unit beside a leakage in %. */
  | "supply-unit"
  /** `76/80` in a column of leakages in %: a pressure held and its supply, in a unit that nothing tells. */
  | "pair-percent"
  /** `74/76` where the supply is told as 80: two readings, or a supply that is not that one. */
  | "supply-twice"
  /** A unit beside the figure that is not the unit of this column (`1.0 in` for millimetres). */
  | "unit-other";

export type Converted =
  | {
      readonly ok: true;
      readonly text: string /** The unit that stood beside the figure; empty: none. */;
      readonly unit: string;
    }
  | { readonly ok: false; readonly doubt: CellDoubt };

const as = (text: string, unit = ""): Converted => ({ ok: true, text, unit });
const doubt = (why: CellDoubt): Converted => ({ ok: false, doubt: why });

/** A number, with the unit that may stand behind it; text that is no number is given on. */
function number(text: string, sign: DecimalSign | null): Converted {
  const { figure, unit } = splitUnit(text);
  const read = readNumber(figure, sign);
  if (read.is === "number") return unit === "" || isUnit(unit) ? as(read.text, unit) : as(text);
  if (read.is === "ambiguous") return doubt("number-ambiguous");
  return sign !== null && readNumber(figure, sign === "." ? "," : ".").is === "number"
    ? doubt("number-other-sign")
    : as(text);
}

/** Words with which the unit of a field may stand beside its figure. */
const ownUnit: Partial<Record<LayoutField, readonly string[]>> = {
  orifice_mm: ["mm"],
  cranking_rpm: ["rpm", "1/min"],
  altitude_m: ["m"],
  barometer_kpa: ["kpa"],
};

function figureField(field: LayoutField, text: string, sign: DecimalSign | null): Converted {
  const found = number(text, sign);
  if (!found.ok || found.unit === "") return found;
  const isOwn =
    field === "meter"
      ? meterUnitOf(found.unit) !== null
      : field === "supply" || field === "first_stroke"
        ? valueUnitOf(found.unit) !== null && valueUnitOf(found.unit) !== "%"
        : ownUnit[field]?.includes(found.unit.toLowerCase());
  return isOwn === true ? found : doubt("unit-other");
}

const cylinderCell = /^(?:cyl(?:inder)?s?|no|nr|number|pot|#)?[\s.:#]*0?(\d{1,2})$/i;

function dateField(text: string, order: DateOrder | null): Converted {
  const read = readDate(text);
  if (read.is === "date") return as(read.text);
  if (read.is === "other") return as(text);
  const meant = order === null ? new Set(read.dates.values()) : new Set([read.dates.get(order) ?? text]);
  const [date] = meant;
  return date !== undefined && meant.size === 1 ? as(date) : doubt("date-ambiguous");
}

const isFigure = new Set(
  Object.entries<Columns[string]>(longColumns).flatMap(([name, { range }]) => (range === undefined ? [] : [name])),
);
const isTick = new Set(
  Object.entries<Columns[string]>(longColumns).flatMap(([name, { allowed }]) =>
    allowed?.join() === "yes,no" ? [name] : [],
  ),
);

/** A cell of a field as the contract writes it. */
export function convertField(field: LayoutField, given: string, forms: FigureForms): Converted {
  const text = given.trim();
  if (field === "heard_at") return as(placesIn(text) ?? text);
  if (field === "remarks") return as(text);
  if (isBlankWord(text)) return as("");
  if (field === "test_date") return dateField(text, forms.dateOrder);
  if (field === "cylinder") return as(cylinderCell.exec(text)?.[1] ?? text);
  if (isFigure.has(field)) return figureField(field, text, forms.decimalSign);
  if (isTick.has(field)) return as(yesNoOf(text) ?? text);
  if (field === "test") return as(measureIn(text) ?? text);
  if (field === "meter_unit") return as(meterUnitOf(text) ?? text);
  if (field === "value_unit") return as(valueUnitOf(text) ?? valueUnitIn(text) ?? text);
  return as(text);
}

export type ConvertedReading =
  | { readonly is: "blank" }
  | {
      readonly is: "reading";
      readonly value: string;
      /** The unit that stood in the cell; null: none. */
      readonly unit: ValueUnit | null;
      /** Of `76/80`: the supply, in the same unit; null: none was told. */
      readonly supply: string | null;
    }
  | { readonly is: "doubt"; readonly doubt: CellDoubt };

const longestPair = 64;
const pair = /^(.+?)\s*\/\s*(.+)$/;

/**
 * A cell of a reading. `76/80` and `80/76` in a leak-down test are the pressure held and its supply: the supply is the
 * higher of the two, for nothing holds more than it is given. In a compression test such a cell is no reading.
 */
export function convertReading(given: string, measure: Measure | null, sign: DecimalSign | null): ConvertedReading {
  const text = given.trim();
  if (isBlankWord(text)) return { is: "blank" };
  const { figure, unit } = splitUnit(text);
  const both = measure === "leak-down" && figure.length <= longestPair ? pair.exec(figure) : null;
  if (both !== null) {
    const [one, two] = [readNumber(both[1] as string, sign), readNumber(both[2] as string, sign)];
    if (one.is === "ambiguous" || two.is === "ambiguous") return { is: "doubt", doubt: "number-ambiguous" };
    const unitOf = unit === "" ? null : valueUnitOf(unit);
    if (one.is === "number" && two.is === "number" && (unit === "" || unitOf !== null) && unitOf !== "%") {
      const [held, supply] = Number(one.text) <= Number(two.text) ? [one.text, two.text] : [two.text, one.text];
      return { is: "reading", value: held, unit: unitOf, supply };
    }
    return { is: "reading", value: text, unit: null, supply: null };
  }
  const found = number(text, sign);
  if (!found.ok) return { is: "doubt", doubt: found.doubt };
  const unitOf = found.unit === "" ? null : valueUnitOf(found.unit);
  if (found.unit !== "" && unitOf === null) return { is: "doubt", doubt: "unit-other" };
  return { is: "reading", value: found.text, unit: unitOf, supply: null };
}
