import { fieldWordsOf } from "../../../lib/layout/column-words.ts";
import type { DateOrder, DecimalSign, FileField, Layout, LayoutField, LayoutGap } from "../../../lib/layout/layout.ts";
import { canonicalNames } from "../../../lib/layout/types.ts";
import { measures, type ValueUnit, valueUnits } from "../../../lib/schema/words.ts";
import { measureWords, sentenceWords } from "../../../lib/wording.ts";
import type { FileLayout } from "../../_jobs/file-layout.ts";

/** How the form of a layout calls what a column may be. */

/** What a column may be beside a reading, in the order of the contract. */
export const columnFields = canonicalNames.filter((name) => name !== "value");

export const fieldWords = (field: LayoutField): string => sentenceWords(fieldWordsOf(field));

/** What is missing before rows can be read, and what to do. */
export const gapWords: Readonly<Record<LayoutGap, string>> = {
  readings: "No column holds readings. Choose “a reading” for each column that does.",
  unit: "Nothing tells the unit. Choose its column, or give its number for the whole file.",
  test_date: "Nothing tells the date. Choose its column, or give it for the whole file.",
  meter: "Nothing tells the meter reading. Choose its column, or give it for the whole file.",
  meter_unit: "Nothing tells what the meter counts. Choose a column, or give h, km or mi for the whole file.",
  test: "Nothing tells the kind of test. Choose it beside the readings, or give it for the whole file.",
  cylinder: "Nothing tells the cylinder. Choose its number beside the readings, or the column that holds it.",
  value_unit: "Nothing tells the unit of the readings. Choose it beside the readings, or give it for the whole file.",
  supply: "A pressure held needs the supply pressure. Choose its column, or give it for the whole file.",
};

/** Gaps that the cells themselves may close: "175psi", "4180 h", "76/80". They do not keep a layout from being tried. */
export const closedByCells: ReadonlySet<LayoutGap> = new Set(["value_unit", "meter_unit", "supply"]);

export const measureOptions = measures.map((value) => ({ value, label: sentenceWords(measureWords[value]) }));
export const unitOptions: readonly { readonly value: ValueUnit; readonly label: string }[] = valueUnits.map(
  (value) => ({
    value,
    label: value,
  }),
);

export const dateOrderWords: Readonly<Record<DateOrder, string>> = {
  "day-first": "day first, 31.12.2026",
  "month-first": "month first, 12/31/2026",
  "year-first": "year first, 2026-12-31",
};
export const decimalSignWords: Readonly<Record<DecimalSign, string>> = {
  ".": "point, 1,250.5",
  ",": "comma, 1.250,5",
};

/** The name of a column in a sentence. */
export const headingWords = (header: string, index: number): string =>
  header.trim() === "" ? `column ${index + 1}, without a heading` : header;

/** What holds for the whole file by a layout, and how its dates and figures are written, each as a term and its words. */
export function wholeFileFacts(layout: Layout): readonly (readonly [term: string, words: string])[] {
  const constants = Object.entries(layout.constants) as [FileField, string][];
  return [
    ...constants.map(([field, text]) => [fieldWords(field), valueWords(field, text)] as const),
    ...layout.title.map(
      ({ label, field }) => [fieldWords(field), `what stands after “${label}” above the table`] as const,
    ),
    ["Dates", layout.dateOrder === null ? "order not known: such dates are refused" : dateOrderWords[layout.dateOrder]],
    [
      "Decimal sign",
      layout.decimalSign === null ? "not known: such numbers are refused" : decimalSignWords[layout.decimalSign],
    ],
    ["Headings", layout.headerRows === 2 ? "in two rows" : "in one row"],
  ];
}

const valueWords = (field: FileField, text: string): string =>
  field === "test" ? (measureOptions.find(({ value }) => value === text)?.label ?? text) : text;

/** What a layout reads, in short: "Compression of 4 cylinders, leak-down of 4 cylinders". */
export function readsWords({ columns, constants }: Layout): string {
  const cylinders = new Map<string, Set<number | null>>();
  for (const column of columns) {
    if (column.is !== "reading") continue;
    const test = column.measure ?? measures.find((measure) => measure === constants.test);
    const what = test === undefined ? "readings" : measureWords[test];
    cylinders.set(what, (cylinders.get(what) ?? new Set()).add(column.cylinder));
  }
  const parts = [...cylinders].map(([what, of]) =>
    of.has(null)
      ? `${what}, a row for each cylinder`
      : `${what} of ${of.size === 1 ? "1 cylinder" : `${of.size} cylinders`}`,
  );
  return parts.length === 0 ? "No readings" : sentenceWords(parts.join("; "));
}

/** The headings that a layout is recognised by, the first few by name. */
export function recognisedWords({ columns }: Layout): string {
  const named = columns.map(({ header }) => header.trim()).filter((header) => header !== "");
  const left = named.length - headingsTold;
  return left <= 1 ? named.join(" · ") : `${named.slice(0, headingsTold).join(" · ")} and ${left} more`;
}
const headingsTold = 12;

/** How the columns of a file were read, in one sentence. */
export function layoutWords(file: string, { layout, by, name, questions }: FileLayout): string {
  const open = questions.filter(({ needed }) => needed).length;
  if (by === "contract") {
    const kept = name === null ? "" : ` The kept layout “${name}” is of these headings.`;
    return `${file} has the headings that are read without a layout, but some of its refused cells are written otherwise (with a unit, parted thousands or another form of date). By a layout they can be read.${kept}`;
  }
  if (layout === null) {
    return `${file} has columns of its own, and ${open === 1 ? "one question" : `${open} questions`} about them ${open === 1 ? "is" : "are"} open, so nothing of it is read yet.`;
  }
  const how = {
    chosen: name === null ? "as was said for this file" : `by the layout “${name}”`,
    kept: `by the kept layout “${name}”`,
    suggested: "as its headings and cells tell",
  }[by];
  return `${file} has columns of its own; they were read ${how}.`;
}

/** The finding of the page on which it is said how the columns of a file are read. */
export function columnsFinding(file: string, { layout, suggested, by, questions }: FileLayout): string {
  const open = questions.filter(({ needed }) => needed).length;
  if (by === "contract")
    return `Read ${file} by a layout: its headings are known, and its cells are written otherwise.`;
  if (layout === null && suggested === null) return `In ${file} no row of headings was found. Choose it.`;
  if (layout === null)
    return `${file} cannot be read before ${open === 1 ? "one question is" : `${open} questions are`} answered.`;
  return `This is how the columns of ${file} are read.`;
}
