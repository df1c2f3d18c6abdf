import { convertReading } from "./convert-cell.ts";
import type { Layout, LayoutField, ReadingColumn } from "./layout.ts";
import { measureIn } from "./trade-words.ts";
import { valueUnitIn, valueUnitOf } from "./unit-words.ts";

/** The cells of a column that are leakages, by the unit that they are in; pairs (`76/80`) and those without one left out. */
export interface Leakages {
  readonly percent: readonly string[];
  readonly pressure: readonly string[];
}

/**
 * The leakages of each column, whatever tells test and unit: the heading, the cell, another column of the row or what holds
 * for the whole file, in the order in which rows of the contract have them (`canonical-rows.ts`). `texts`: the cells of each
 * column, by row.
 */
export function leakagesByUnit(
  { columns, constants }: Pick<Layout, "columns" | "constants">,
  texts: readonly (readonly string[])[],
): readonly Leakages[] {
  /** What the row of a reading tells of a field; merged cells stand in their first row alone. */
  const besideOf = (reading: ReadingColumn, field: LayoutField): readonly string[] => {
    const at = columns.findIndex(
      (column) =>
        column.is === "field" &&
        column.field === field &&
        (column.cylinder === null || column.cylinder === reading.cylinder) &&
        (column.measure === null || column.measure === reading.measure),
    );
    const cells = texts[at] ?? [];
    const column = columns[at];
    if (column?.is !== "field" || !column.carriedDown) return cells;
    let above = "";
    return cells.map((text) => {
      if (text.trim() !== "") above = text;
      return above;
    });
  };
  return columns.map((column, at): Leakages => {
    const found = { percent: [] as string[], pressure: [] as string[] };
    if (column.is !== "reading") return found;
    const tests = besideOf(column, "test");
    const units = besideOf(column, "value_unit");
    for (const [row, text] of (texts[at] ?? []).entries()) {
      const test = tests[row] ?? "";
      const measure = column.measure ?? constants.test ?? measureIn(test);
      const read = convertReading(text, "leak-down", null);
      if (measure !== "leak-down" || read.is === "blank" || (read.is === "reading" && read.supply !== null)) continue;
      const own = read.is === "reading" ? read.unit : null;
      const beside = constants.value_unit ?? units[row] ?? "";
      const unit = own ?? column.unit ?? valueUnitOf(beside) ?? valueUnitIn(test);
      if (unit !== null) found[unit === "%" ? "percent" : "pressure"].push(text.trim());
    }
    return found;
  });
}
