import { filled } from "./column-content.ts";
import { convertReading } from "./convert-cell.ts";
import type { Layout, LayoutField, ReadingColumn } from "./layout.ts";
import { measureIn } from "./trade-words.ts";
import { valueUnitIn, valueUnitOf } from "./unit-words.ts";

/**
 * For each column the cells that are leakages in per cent, whatever tells it: the heading, the cell, another column of the
 * row or what holds for the whole file. They are the cells that rows of the contract have them from (`canonical-rows.ts`).
 * `texts`: the cells of each column, by row.
 */
export function percentLeakages(
  { columns, constants }: Pick<Layout, "columns" | "constants">,
  texts: readonly (readonly string[])[],
): readonly (readonly string[])[] {
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
  return columns.map((column, at) => {
    if (column.is !== "reading") return [];
    const tests = besideOf(column, "test");
    const units = besideOf(column, "value_unit");
    const cells = texts[at] ?? [];
    const inPercent = cells.filter((text, row) => {
      const test = tests[row] ?? "";
      const measure = column.measure ?? constants.test ?? measureIn(test);
      if (measure !== "leak-down") return false;
      const read = convertReading(text, measure, null);
      if (read.is === "reading" && read.supply !== null) return false;
      const own = read.is === "reading" ? read.unit : null;
      const beside = constants.value_unit ?? units[row] ?? "";
      return (own ?? column.unit ?? valueUnitOf(beside) ?? valueUnitIn(test)) === "%";
    });
    return filled(inPercent);
  });
}
