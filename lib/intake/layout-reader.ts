import type { Layout } from "../layout/layout.ts";
import type { KnownFleet, RowIssue } from "../schema/intake.ts";
import type { CellCorrection } from "../schema/reading.ts";
import { layoutRows } from "./layout-rows.ts";
import { type CsvProgress, type CsvReader, isBlankRecord, tellFaults, tooManyCells } from "./record-faults.ts";
import { type Delimiter, recordReader } from "./records.ts";
import { fileIssue, words } from "./words.ts";

interface ForeignFile {
  readonly file: string;
  readonly known: Pick<KnownFleet, "models" | "today">;
  readonly layout: Layout;
  readonly corrections: readonly CellCorrection[];
  readonly delimiter: Delimiter;
  /** What is told of the file once its header is found. */
  readonly mentions: readonly RowIssue[];
}

/** Reads a foreign file of test results by its layout. */
export function layoutReader({ file, known, layout, corrections, delimiter, mentions }: ForeignFile): CsvReader {
  const records = recordReader(delimiter);
  const rows = layoutRows(layout, { file, models: known.models, today: known.today, corrections });
  let count = 0;
  let width: number | null = null;
  const progress = (fileRefused: boolean, stopped: boolean): CsvProgress => ({
    kind: width === null ? null : "tests-long",
    rows: count,
    fileRefused,
    stopped: stopped || fileRefused,
  });
  return (text, last, sink) => {
    const block = records(text, last);
    for (const [i, record] of block.records.entries()) {
      if (isBlankRecord(record)) continue;
      const line = block.lines[i] as number;
      const tooMany = width === null ? null : tooManyCells(record, { file, line, width });
      if (tooMany !== null) {
        sink.issues.push(tooMany);
        count += 1;
        continue;
      }
      const taken = rows.take(record, line, sink);
      if (width === null && taken.width !== null) sink.issues.push(...mentions);
      width = taken.width;
      if (taken.isRow) count += 1;
      if (taken.refused) return progress(true, true);
    }
    count += tellFaults(block, file, sink.issues);
    if ((last || block.stopped) && !rows.end(sink.issues)) return progress(true, true);
    if (last && count === 0) sink.issues.push(fileIssue("warning", "no-rows", { file }, words.noRows));
    return progress(false, block.stopped);
  };
}
