import type { RowIssue } from "../schema/intake.ts";
import type { CsvKind } from "../schema/rows.ts";
import type { FactSink } from "./fact-sink.ts";
import type { RecordBlock } from "./records.ts";
import { rowIssue, words } from "./words.ts";

/** What the readers of contract files and of foreign ones have in common. */

/** Reads a file text by text; facts and issues go to the sink. */
export type CsvReader = (text: string, last: boolean, sink: FactSink) => CsvProgress;

export interface CsvProgress {
  readonly kind: CsvKind | null;
  readonly rows: number;
  readonly fileRefused: boolean;
  /** Nothing more is to be read. */
  readonly stopped: boolean;
}

export const isBlankRecord = (record: readonly string[]): boolean => record.every((cell) => cell.trim() === "");

/** The issue of a record with more cells than its header, unless they are blank; null: it has none. */
export function tooManyCells(
  record: readonly string[],
  { file, line, width }: { readonly file: string; readonly line: number; readonly width: number },
): RowIssue | null {
  if (record.length <= width || isBlankRecord(record.slice(width))) return null;
  const at = { file, line, column: null, value: null };
  return rowIssue("refused", "too-many-cells", at, words.tooManyCells(record.length, width));
}

/** Tells of quotes that do not close; gives the number of rows that are lost by it. */
export function tellFaults(block: RecordBlock, file: string, issues: RowIssue[]): number {
  for (const { line, code } of block.faults) {
    issues.push(rowIssue("refused", code, { file, line, column: null, value: null }, words.quoteFault(code)));
  }
  return block.faults.filter((fault) => fault.code === "quote-never-closed").length;
}
