import { type CellCorrection, cellHolds } from "../schema/reading.ts";
import { type CellDoubt, convertField, convertReading } from "./convert-cell.ts";
import { headingKey } from "./header-key.ts";
import { formsOf, type Layout, type LayoutColumn, type LayoutField } from "./layout.ts";
import type { LocatedColumns } from "./locate-columns.ts";
import { type CanonicalName, canonicalNames } from "./types.ts";

/**
 * Corrections of a file that is read by a layout. What a person typed stands in the source's own cell, before anything is
 * read from it. What is said in the contract's columns, as proposals are, takes the place of what was read.
 */
export interface RowCorrections {
  /** The record with what was typed in its cells; the same object where nothing was. */
  readonly record: (record: readonly string[], line: number) => readonly string[];
  /** What one cell of the contract is read as, of the readings below a heading; `text`: what was read from the file. */
  readonly cell: (line: number, heading: string, name: CanonicalName, text: string) => CorrectedCell;
}

export type CorrectedCell =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly doubt: CellDoubt };

interface Placed extends CellCorrection {
  /** Places in the record of the columns that have its heading. */
  readonly columns: readonly { readonly column: LayoutColumn; readonly index: number }[];
}

const isName = (name: string): name is CanonicalName => canonicalNames.some((one) => one === name);

/** Whether a cell of the source is the one that is meant: its text, or what is read from it, is what was told of it. */
function isMeant(text: string, was: string, column: LayoutColumn, layout: Layout): boolean {
  const name = column.is === "ignored" ? "" : column.is === "reading" ? "value" : column.field;
  if (cellHolds(name, text, was)) return true;
  if (column.is === "reading") {
    const read = convertReading(text, column.measure, formsOf(layout, column).decimalSign);
    return read.is === "reading" && cellHolds(name, read.value, was);
  }
  if (column.is === "ignored") return false;
  // A blank that is carried down says what stands above it.
  if (text.trim() === "" && column.carriedDown) return true;
  const read = convertField(column.field, text, formsOf(layout, column));
  return read.ok && read.text !== "" && cellHolds(name, read.text, was);
}

/** Makes the corrections of one file ready, once its header is found; null: there are none. */
export function rowCorrections(
  corrections: readonly CellCorrection[],
  layout: Layout,
  located: LocatedColumns,
): RowCorrections | null {
  if (corrections.length === 0) return null;
  const typed = new Map<number, Placed[]>();
  const read = new Map<number | null, CellCorrection[]>();
  for (const correction of corrections) {
    const key = headingKey(correction.column);
    const columns = layout.columns.flatMap((column, i) => {
      const isIt = column.is !== "ignored" && headingKey(located.spelled[i] as string) === key;
      return isIt ? [{ column, index: located.places[i] as number }] : [];
    });
    const { line } = correction;
    if (correction.typed === true && line !== null && columns.length > 0) {
      typed.set(line, [...(typed.get(line) ?? []), { ...correction, columns }]);
    } else if (isName(correction.column)) read.set(line, [...(read.get(line) ?? []), correction]);
  }
  const everywhere = read.get(null) ?? [];
  return {
    record: (record, line) => {
      const own = typed.get(line);
      if (own === undefined) return record;
      const corrected = [...record];
      for (const { columns, was, value } of own) {
        // Of headings that appear twice, the one whose cell holds what was told.
        const meant = columns.find(({ column, index }) => isMeant(corrected[index] ?? "", was, column, layout));
        if (meant !== undefined) corrected[meant.index] = value;
      }
      return corrected;
    },
    cell: (line, heading, name, text) => {
      let now = text;
      for (const { column, of, was, value, typed: isTyped } of [...everywhere, ...(read.get(line) ?? [])]) {
        if (column !== name || (of !== undefined && of !== heading) || !cellHolds(name, now, was)) continue;
        const given = isTyped === true ? asContract(name, value, layout) : { ok: true as const, text: value };
        if (!given.ok) return given;
        now = given.text;
      }
      return { ok: true, text: now };
    },
  };
}

/** What a person typed for a cell that no column of the file has, as the contract writes it. */
function asContract(name: CanonicalName, value: string, layout: Layout): CorrectedCell {
  if (name === "value") return { ok: true, text: value };
  return convertField(name satisfies LayoutField, value, layout);
}
