import { longestHeading } from "../schema/reading.ts";
import { type Columns, type CsvKind, columnKey, columnsOf, longColumns, numberedColumn } from "../schema/rows.ts";
import { filled } from "./column-content.ts";
import { convertField, convertReading, type FigureForms } from "./convert-cell.ts";
import { type LayoutColumn, layoutSchema } from "./layout.ts";
import { evidenceOf } from "./sample.ts";
import { settleForms } from "./settle-forms.ts";
import type { ColumnGuess, Sample, SuggestContext, Suggestion } from "./suggestion.ts";
import { type CanonicalName, canonicalNames } from "./types.ts";
import { valueUnitOf } from "./unit-words.ts";

/** Files that have the contract's own headings, and how a layout reads them where their cells are not the contract's. */

/** Whether a header has all that a file of the contract needs of one kind; such a file is read without a layout. */
export function isContractHeader(headings: readonly string[]): boolean {
  const keys = new Set(headings.map(columnKey));
  return (Object.keys(columnsOf) as CsvKind[]).some((kind) => {
    const columns = Object.entries<Columns[string]>(columnsOf[kind]);
    const known = columns.filter(([name]) => keys.has(columnKey(name))).length;
    if (columns.some(([name, { needed }]) => needed && !keys.has(columnKey(name)))) return false;
    if (kind === "tests-wide") return [...keys].some((key) => numberedColumn(key)?.is === "cyl");
    // A list of units or depots needs one column alone: a foreign file that has it too is not meant.
    return kind === "tests-long" || known * 2 > headings.filter((heading) => heading.trim() !== "").length;
  });
}

const nameOf: ReadonlyMap<string, CanonicalName> = new Map(canonicalNames.map((name) => [columnKey(name), name]));
const isTaken = (name: CanonicalName, text: string) => longColumns[name].schema.safeParse(text).success;
const anyForm: FigureForms = { dateOrder: null, decimalSign: null };

/**
 * Whether a cell that the contract does not take is one as people write it, which a layout reads or asks about: `175psi`,
 * `1,250`, `12 %`, `12/09/2026`, a day number, `76/80`. `heading`: that of its column in a file of test results.
 */
export function isWrittenOtherwise(heading: string, text: string): boolean {
  const key = columnKey(heading);
  const numbered = numberedColumn(key);
  const name = nameOf.get(key) ?? (numbered === null ? undefined : numbered.is === "cyl" ? "value" : "heard_at");
  if (name === undefined) return false;
  if (name === "value") {
    const read = convertReading(text, "leak-down", null);
    if (read.is === "doubt") return read.doubt === "number-ambiguous";
    return read.is === "reading" && read.value !== text.trim() && isTaken("value", read.value);
  }
  const read = convertField(name, text, anyForm);
  if (!read.ok) return read.doubt === "number-ambiguous" || read.doubt === "date-ambiguous";
  return read.text !== "" && read.text !== text.trim() && isTaken(name, read.text);
}

/** The first cell of a file with the contract's headings that is written otherwise; null: none is. */
export function cellWrittenOtherwise({ records }: Sample): { readonly column: string; readonly value: string } | null {
  const [headings = [], ...rows] = records;
  for (const row of rows) {
    for (const [i, heading] of headings.entries()) {
      const text = (row[i] ?? "").trim();
      const name = nameOf.get(columnKey(heading));
      const isPlain = text === "" || (name !== undefined && isTaken(name, text));
      if (!isPlain && isWrittenOtherwise(heading, text)) return { column: heading.trim(), value: text };
    }
  }
  return null;
}

function columnAs(header: string, isLong: boolean, supplyUnit: "kPa" | null): LayoutColumn {
  const key = columnKey(header);
  const name = nameOf.get(key);
  const numbered = isLong ? null : numberedColumn(key);
  const all = { header, cylinder: null, measure: null, unit: null } as const;
  if (name === "value") return { ...all, is: "reading" };
  if (name !== undefined)
    return { ...all, is: "field", field: name, unit: name === "supply" ? supplyUnit : null, carriedDown: false };
  if (numbered === null) return { header, is: "ignored" };
  return numbered.is === "cyl"
    ? { ...all, is: "reading", cylinder: numbered.cylinder }
    : { ...all, is: "field", field: "heard_at", cylinder: numbered.cylinder, carriedDown: false };
}

/** Beside leakages in % the contract has the supply in kPa; null: beside some it is in the unit of the readings. */
function supplyUnitOf(headings: readonly string[], rows: Sample["records"]): "kPa" | null {
  const [supply, unit] = ["supply", "valueunit"].map((key) => headings.findIndex((head) => columnKey(head) === key));
  if (supply === undefined || unit === undefined || supply === -1) return null;
  const beside = rows.filter((row) => (row[supply] ?? "").trim() !== "");
  return beside.length > 0 && beside.every((row) => valueUnitOf(row[unit] ?? "") === "%") ? "kPa" : null;
}

/** The layout that reads a file of test results with the contract's own headings, and what its cells leave open. */
export function contractSuggestion(sample: Sample, { today }: Pick<SuggestContext, "today">): Suggestion {
  const [headings = [], ...rows] = sample.records.filter((record) => record.some((cell) => cell.trim() !== ""));
  const keys = headings.map(columnKey);
  const isLong = keys.includes("cylinder") && keys.includes("value");
  const supplyUnit = supplyUnitOf(headings, rows);
  const columns = headings.map((heading) => columnAs(heading.trim().slice(0, longestHeading), isLong, supplyUnit));
  const texts = columns.map((_, i) => rows.map((row) => row[i] ?? ""));
  const forms = settleForms(
    columns.map((is, index) => ({ is, index, evidence: evidenceOf(texts[index] ?? [], sample.columns[index]) })),
    [],
    { today, unitOfFile: null },
  );
  // Columns that appear twice, or far too many, have no layout; the contract itself tells why they are refused.
  const { data: layout } = layoutSchema.safeParse({
    layoutVersion: 1,
    headerRows: 1,
    columns: columns.map((is, i) => {
      const decimalSign = forms.ofColumns.get(i);
      return is.is === "ignored" || decimalSign === undefined ? is : { ...is, decimalSign };
    }),
    dateOrder: forms.dateOrder,
    decimalSign: forms.decimalSign,
  });
  if (layout === undefined) return { isContract: true, layout: null, columns: [], questions: [] };
  return {
    isContract: true,
    layout,
    columns: layout.columns.map(
      (is, i): ColumnGuess => ({
        header: is.header,
        is,
        sureness: "sure",
        why: is.is === "ignored" ? "Not a column of the contract." : "By its heading.",
        examples: [...new Set(filled(texts[i] ?? []))].slice(0, 3),
      }),
    ),
    questions: forms.questions,
  };
}
