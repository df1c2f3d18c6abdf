import type { CsvCell } from "./csv.ts";

/** A table of a page as it is downloaded: figures and dates as they are kept, a row for each thing. */
export interface CsvTable {
  readonly head: readonly string[];
  readonly rows: readonly (readonly CsvCell[])[];
}

/** A table of things: under each head what `columns` tells of a thing. */
export const csvTable = <T>(
  things: readonly T[],
  columns: Readonly<Record<string, (thing: T) => CsvCell>>,
): CsvTable => ({
  head: Object.keys(columns),
  rows: things.map((thing) => Object.values(columns).map((cell) => cell(thing))),
});

/** "yes", "no", or blank where it is not recorded. */
export const yesNo = (value: boolean | null): CsvCell => (value === null ? null : value ? "yes" : "no");
