import type { ReadingFact, TestFact } from "../schema/facts.ts";
import { type CellCorrection, cellHolds } from "../schema/reading.ts";
import { columnKey } from "../schema/rows.ts";
import { placeOf } from "./unit-rows.ts";

/** Corrections of one file, ready to be put into its records as they are read. */
export interface FileCorrections {
  /** The header with a column more for each that a correction needs and the file lacks. */
  readonly header: (cells: readonly string[]) => readonly string[];
  /** The record with its corrections; the same object where it has none. Call after `header`. */
  readonly record: (cells: readonly string[], line: number) => readonly string[];
}

type Placed = CellCorrection & { readonly index: number };

/** Puts corrections into records before they are read, so that a corrected row is judged like any other. */
export function correctCells(corrections: readonly CellCorrection[]): FileCorrections {
  let everywhere: Placed[] = [];
  const byLine = new Map<number, Placed[]>();
  return {
    header: (cells) => {
      const keys = cells.map((cell) => columnKey(cell.trim()));
      const added: string[] = [];
      everywhere = [];
      byLine.clear();
      for (const correction of corrections) {
        const key = columnKey(correction.column);
        let index = keys.indexOf(key);
        if (index === -1) {
          index = keys.push(key) - 1;
          added.push(correction.column);
        }
        const placed = { ...correction, index };
        if (correction.line === null) everywhere.push(placed);
        else byLine.set(correction.line, [...(byLine.get(correction.line) ?? []), placed]);
      }
      return added.length === 0 ? cells : [...cells, ...added];
    },
    record: (cells, line) => {
      const own = byLine.get(line);
      if (own === undefined && everywhere.length === 0) return cells;
      const corrected = [...cells];
      for (const { index, column, was, value } of [...everywhere, ...(own ?? [])]) {
        // One after the other: a later one may be of what an earlier one made.
        if (cellHolds(column, corrected[index] ?? "", was)) corrected[index] = value;
      }
      return corrected;
    },
  };
}

/** The readings below one heading of a file that is read by a layout; of other files, the whole row. */
const readingAlone = ({ byLayout, column }: ReadingFact) =>
  byLayout === true && column !== undefined ? { of: column } : {};

/**
 * The same column of every row of a test that lies in a file, corrected. `was`: what each of them holds. In a row that a
 * layout reads, other tests may stand beside this one: they share its day and its meter, but not its unit of pressure.
 */
export function correctTest(
  test: TestFact,
  file: string,
  { column, was, value }: Pick<CellCorrection, "column" | "was" | "value">,
): readonly CellCorrection[] {
  const cells = new Map<string, CellCorrection & { readonly line: number }>();
  for (const reading of test.readings) {
    const { line, file: own } = placeOf(test, reading);
    if (own !== file) continue;
    const alone = column === "value_unit" ? readingAlone(reading) : {};
    cells.set(`${line} ${alone.of ?? ""}`, { line, column, ...alone, was, value });
  }
  return [...cells.values()].sort((a, b) => a.line - b.line);
}

/**
 * The readings of a test given to the cylinders as counted from the other end; null where one of them carries more than
 * its value in columns of its own.
 */
export function reverseCylinders(test: TestFact, cylinders: number): readonly CellCorrection[] | null {
  const byCylinder = new Map(test.readings.map((reading): [number, ReadingFact] => [reading.cylinder, reading]));
  const cells: CellCorrection[] = [];
  for (const reading of test.readings) {
    const { cylinder, column, value, heardAt, line, byLayout } = reading;
    const other = cylinders + 1 - cylinder;
    if (column === undefined || byLayout === true) {
      const alone = readingAlone(reading);
      cells.push({ line, column: "cylinder", ...alone, was: String(cylinder), value: String(other) });
    } else {
      const mirrored = byCylinder.get(other);
      if (mirrored === undefined || heardAt.length > 0) return null;
      cells.push({ line, column, was: String(value), value: String(mirrored.value) });
    }
  }
  return cells;
}
