import { type Measure, measures } from "../schema/words.ts";
import { type BoundField, fieldTexts, withCarried } from "./carried-down.ts";
import { type Converted, convertField, convertReading } from "./convert-cell.ts";
import type { RowCorrections } from "./correct-rows.ts";
import { type FieldColumn, formsOf, type Layout, type LayoutField, type ReadingColumn } from "./layout.ts";
import type { LocatedColumns } from "./locate-columns.ts";
import { pressureBeside } from "./pressure-beside.ts";
import { type TitleBlock, valueAfter } from "./title-statements.ts";
import {
  type CanonicalName,
  type CanonicalRow,
  canonicalNames,
  type DoubtfulCell,
  type ReadingSource,
} from "./types.ts";
import { meterUnitOf, valueUnitIn, valueUnitOf } from "./unit-words.ts";

const placeOf = new Map(canonicalNames.map((name, i) => [name, i]));

/** Fields that say nothing of the other kind of test: with both side by side in a row, they belong to one alone. */
const ofLeakDown: ReadonlySet<CanonicalName> = new Set([
  "supply",
  "orifice_mm",
  "heard_at",
  "tdc_confirmed",
  "gauge_zeroed",
]);
const ofCompression: ReadonlySet<CanonicalName> = new Set([
  "first_stroke",
  "cranking_rpm",
  "throttle_open",
  "all_plugs_out",
]);
const concerns = (name: CanonicalName, measure: Measure | null): boolean =>
  measure === null || !(measure === "leak-down" ? ofCompression : ofLeakDown).has(name);

/** What tells a field of a reading, and where it stands. */
interface Told {
  readonly converted: Converted;
  readonly column: FieldColumn | null;
  readonly spelled: string;
  readonly given: string;
  /** The layout itself tells it, as the contract writes it. */
  readonly isConstant: boolean;
}
type ToldFields = ReadonlyMap<LayoutField, Told>;

interface BoundReading {
  readonly column: ReadingColumn;
  readonly index: number;
  readonly spelled: string;
  /** The columns that tell of its rows, the more special last. */
  readonly fields: readonly BoundField[];
}

/** How special a field's column is: of one measure, of one cylinder, of both. */
const specialty = ({ cylinder, measure }: FieldColumn): number =>
  (cylinder === null ? 0 : 2) + (measure === null ? 0 : 1);

/** The columns of the layout with their places in the file. */
function bind(layout: Layout, located: LocatedColumns) {
  const fields: BoundField[] = [];
  const readings: Omit<BoundReading, "fields">[] = [];
  for (const [i, column] of layout.columns.entries()) {
    const place = { index: located.places[i] as number, spelled: located.spelled[i] as string };
    if (column.is === "field") fields.push({ column, ...place });
    else if (column.is === "reading") readings.push({ column, ...place });
  }
  const tellsOf = (field: FieldColumn, reading: ReadingColumn) =>
    (field.cylinder === null || field.cylinder === reading.cylinder) &&
    (field.measure === null || field.measure === reading.measure);
  const bound = readings.map((reading): BoundReading => {
    const own = fields.filter(({ column }) => tellsOf(column, reading.column));
    return { ...reading, fields: own.sort((a, b) => specialty(a.column) - specialty(b.column)) };
  });
  return { fields, readings: bound };
}

/** What the title block and the layout's constants tell of every row. */
function wholeFile(layout: Layout, title: TitleBlock): ToldFields {
  const told = (field: LayoutField, given: string, converted: Converted, isConstant: boolean): [LayoutField, Told] => [
    field,
    { converted, column: null, spelled: field, given, isConstant },
  ];
  const constants = Object.entries(layout.constants) as [LayoutField, string][];
  return new Map([
    ...constants.map(([field, text]) => told(field, text, { ok: true, text, unit: "" }, true)),
    ...layout.title.map(({ label, field }) => {
      const given = valueAfter(title, label) ?? "";
      return told(field, given, convertField(field, given, layout), false);
    }),
  ]);
}

/** What tells each field of one reading: the file, the row, the columns of its measure and its cylinder. */
function toldOf(reading: BoundReading, file: ToldFields, row: ReadonlyMap<BoundField, Told>): ToldFields {
  const told = new Map(file);
  for (const bound of reading.fields) {
    const { field } = bound.column;
    const own = row.get(bound) as Told;
    // A blank cell of one cylinder leaves what holds for the row.
    const isBlank = own.converted.ok && own.converted.text === "";
    if (isBlank && specialty(bound.column) > 0 && told.has(field)) continue;
    told.set(field, own);
  }
  return told;
}

const textIn = (told: ToldFields, field: LayoutField): string => {
  const converted = told.get(field)?.converted;
  return converted?.ok === true ? converted.text : "";
};

/** Where a row stands, and what was corrected in it; null: nothing in the file was. */
interface At {
  readonly line: number;
  readonly corrections: RowCorrections | null;
}

/** Whether two figures of one pressure agree: converted or rounded ones differ a little. */
const isSame = (one: number, two: number) => Math.abs(one - two) <= 0.02 * Math.max(one, two);

/** The row of one reading, or the cells for which it cannot be told; null: the cylinder was not measured. */
function rowOf(
  given: string,
  { column, spelled }: BoundReading,
  told: ToldFields,
  layout: Layout,
  { line, corrections }: At,
): { readonly cells: readonly string[] } | { readonly doubts: readonly DoubtfulCell[] } | null {
  const measure = column.measure ?? measures.find((m) => m === textIn(told, "test")) ?? null;
  const reading = convertReading(given, measure, formsOf(layout, column).decimalSign);
  if (reading.is === "blank") return null;
  const doubts: DoubtfulCell[] = [];
  const corrected = (name: CanonicalName, text: string): string => {
    const cell = corrections?.cell(line, spelled, name, text) ?? { ok: true, text };
    if (cell.ok) return cell.text;
    doubts.push({ spelled: name, value: text, doubt: cell.doubt });
    return text;
  };
  const typed = new Map<CanonicalName, string>();
  for (const [field, { converted, column: from, spelled: by, given: value }] of told) {
    if (converted.ok || !concerns(field, measure)) continue;
    const instead = from === null ? corrected(field, value) : value;
    if (instead === value) doubts.push({ spelled: by, value, doubt: converted.doubt });
    else typed.set(field, instead);
  }
  if (reading.is === "doubt") return { doubts: [...doubts, { spelled, value: given.trim(), doubt: reading.doubt }] };

  const unitRead =
    reading.unit ??
    column.unit ??
    valueUnitOf(textIn(told, "value_unit")) ??
    valueUnitIn(told.get("test")?.given ?? "");
  // Before anything that is measured in it.
  const unit = valueUnitOf(corrected("value_unit", unitRead ?? "")) ?? unitRead;
  if (reading.supply !== null && unit === "%") doubts.push({ spelled, value: given.trim(), doubt: "pair-percent" });
  const cells = canonicalNames.map((name) => (name === "value" || !concerns(name, measure) ? "" : textIn(told, name)));
  const set = (name: CanonicalName, text: string) => {
    cells[placeOf.get(name) as number] = text;
  };
  for (const field of ["supply", "first_stroke"] as const) {
    const found = told.get(field);
    if (found?.converted.ok !== true || found.converted.text === "" || !concerns(field, measure)) continue;
    // A constant is in the contract's unit already.
    if (found.isConstant) continue;
    const from = valueUnitOf(found.converted.unit) ?? found.column?.unit ?? null;
    const beside = pressureBeside(found.converted.text, from, unit);
    if (beside === null) doubts.push({ spelled: found.spelled, value: found.given, doubt: "supply-unit" });
    else if (field === "supply" && reading.supply !== null && !isSame(Number(beside), Number(reading.supply)))
      doubts.push({ spelled, value: given.trim(), doubt: "supply-twice" });
    else set(field, beside);
  }
  if (column.measure !== null) set("test", column.measure);
  if (column.cylinder !== null) set("cylinder", String(column.cylinder));
  if (unit !== null) set("value_unit", unit);
  set("value", reading.value);
  if (reading.supply !== null) set("supply", reading.supply);
  const meter = told.get("meter")?.converted;
  const meterUnit = meter?.ok === true ? meterUnitOf(meter.unit) : null;
  if (meterUnit !== null) set("meter_unit", meterUnit);
  for (const [name, text] of typed) set(name, text);
  if (corrections !== null) {
    for (const [i, name] of canonicalNames.entries()) {
      if (name !== "value_unit") cells[i] = corrected(name, cells[i] as string);
    }
  }
  return doubts.length > 0 ? { doubts } : { cells };
}

/** Rows of the contract from the records below a header: one for each reading that a record holds. */
export function canonicalRows(
  layout: Layout,
  located: LocatedColumns,
  title: TitleBlock,
  corrections: RowCorrections | null,
) {
  const { fields, readings } = bind(layout, located);
  const file = wholeFile(layout, title);
  const textsOf = fieldTexts(fields, layout);
  const sources = readings.map(({ fields: own, index, spelled }): ReadingSource => {
    const places = own.map(({ column, index, spelled }) => [column.field, { index, spelled }] as const);
    return { places: new Map<string, { index: number; spelled: string }>([...places, ["value", { index, spelled }]]) };
  });
  const isCarried = fields.some(({ column }) => column.carriedDown);
  const dateField = fields.find(({ column }) => column.field === "test_date");

  const take = (given: readonly string[], line: number) => {
    const record = corrections?.record(given, line) ?? given;
    const texts = textsOf(record);
    const row = new Map<BoundField, Told>();
    for (const [bound, text] of texts) {
      const { column, spelled } = bound;
      row.set(bound, {
        converted: convertField(column.field, text, formsOf(layout, column)),
        column,
        spelled,
        given: text,
        isConstant: false,
      });
    }
    const rows: CanonicalRow[] = [];
    const doubts = new Map<string, DoubtfulCell>();
    let measured = false;
    for (const [source, reading] of readings.entries()) {
      const made = rowOf(record[reading.index] ?? "", reading, toldOf(reading, file, row), layout, {
        line,
        corrections,
      });
      if (made === null) continue;
      measured = true;
      if ("cells" in made) rows.push({ cells: made.cells, source });
      // A cell that stands for several readings is told of once.
      else for (const cell of made.doubts) doubts.set(cell.spelled, cell);
    }
    return { record: isCarried ? withCarried(record, texts) : record, rows, doubts: [...doubts.values()], measured };
  };
  return {
    sources,
    take,
    hasDate: (record: readonly string[]) => dateField !== undefined && (record[dateField.index] ?? "").trim() !== "",
  };
}
