import type { z } from "zod";
import { type CellFault, cellFaults } from "../schema/cells.ts";
import type { RowIssue } from "../schema/intake.ts";
import type { Column, Columns, RowOf } from "../schema/rows.ts";
import type { ColumnPlace } from "./header.ts";
import { cellWords } from "./words.ts";

/** What is wrong with a row, or worth telling of it, before its file and line are known. */
export interface Problem {
  readonly severity: RowIssue["severity"];
  readonly code: string;
  readonly column: string | null;
  readonly value: string | null;
  readonly why: string;
}

/** A row of which some cells could not be read. */
export type LooseRow<C extends Columns> = { [K in keyof C]: RowOf<C>[K] | undefined };

/** `text`: what was read, in a string of its own. */
type CellOutcome<T> =
  | { readonly ok: true; readonly value: T; readonly text: string }
  | { readonly ok: false; readonly fault: CellFault };

/** Cells of a column repeat: what one text gives is kept, up to this many texts. */
const keptTexts = 10_000;
/** V8 lets a longer part of a string hold the whole of it in memory. */
const shortestSlice = 13;
/** The same text in a string of its own. */
const detached = (text: string): string =>
  text.length < shortestSlice ? text : (JSON.parse(JSON.stringify(text)) as string);

const faultOf = (error: z.ZodError): CellFault => {
  const message = error.issues[0]?.message;
  const fault = cellFaults.find((f) => f === message);
  if (fault === undefined) throw new Error(`a cell schema failed without a cell fault: ${message}`);
  return fault;
};

/** Reads the cells of one column, each distinct text once. */
export function cellReader<T>(schema: z.ZodType<T, string>): (text: string) => CellOutcome<T> {
  const kept = new Map<string, CellOutcome<T>>();
  return (text) => {
    const known = kept.get(text);
    if (known !== undefined) return known;
    const own = detached(text);
    const parsed = schema.safeParse(own);
    const outcome: CellOutcome<T> = parsed.success
      ? { ok: true, value: parsed.data, text: own }
      : { ok: false, fault: faultOf(parsed.error) };
    if (kept.size >= keptTexts) kept.clear();
    kept.set(own, outcome);
    return outcome;
  };
}

interface BoundColumn {
  readonly name: string;
  readonly place: ColumnPlace;
  readonly column: Column;
  readonly read: (text: string) => CellOutcome<unknown>;
  /** The text whose value the row still has; null: that of the row before could not be read. */
  standing: string | null;
}

/**
 * Reads records into rows by the columns that the header has; the others are as if blank. The row is the same object
 * every time (a million rows would otherwise be a million objects): take what you need before the next call, and change
 * nothing in it. Problems of all its cells are added to `problems`; a cell that could not be read is `undefined`.
 */
export function rowReader<C extends Columns>(
  columns: C,
  places: ReadonlyMap<string, ColumnPlace>,
): (record: readonly string[], problems: Problem[]) => LooseRow<C> {
  const row: Record<string, unknown> = {};
  const bound: BoundColumn[] = [];
  for (const [name, column] of Object.entries(columns)) {
    const place = places.get(name);
    const read = cellReader(column.schema);
    const blank = read("");
    row[name] = blank.ok ? blank.value : undefined;
    if (place !== undefined) bound.push({ name, place, column, read, standing: blank.ok ? "" : null });
  }
  return (record, problems) => {
    for (let i = 0; i < bound.length; i++) {
      const cell = bound[i] as BoundColumn;
      const text = record[cell.place.index] ?? "";
      // Most cells of a row are those of the row above.
      if (text === cell.standing) continue;
      const outcome = cell.read(text);
      if (outcome.ok) {
        row[cell.name] = outcome.value;
        cell.standing = outcome.text;
        continue;
      }
      row[cell.name] = undefined;
      cell.standing = null;
      problems.push(cellProblem(outcome.fault, text, cell.column, cell.place.spelled));
    }
    // Each name got what its own column's schema gives, or undefined.
    return row as LooseRow<C>;
  };
}

export const cellProblem = (fault: CellFault, text: string, column: Column, spelled: string): Problem => ({
  severity: "refused",
  code: `cell-${fault}`,
  column: spelled,
  value: detached(text),
  why: cellWords(fault, text, column),
});
