import { fieldWordsOf } from "../../../lib/layout/column-words.ts";
import type { LayoutField, LayoutGap } from "../../../lib/layout/layout.ts";
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

/** How the columns of a file were read, in one sentence. */
export function layoutWords(file: string, { layout, by, name, questions }: FileLayout): string {
  const open = questions.filter(({ needed }) => needed).length;
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
