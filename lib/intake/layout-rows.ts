import { layoutApplier } from "../layout/apply.ts";
import type { Layout } from "../layout/layout.ts";
import { canonicalNames } from "../layout/types.ts";
import type { RowIssue } from "../schema/intake.ts";
import { type CellCorrection, toldOfCell } from "../schema/reading.ts";
import type { FactSink, RowContext, TakeRow } from "./fact-sink.ts";
import { fragments, longRows } from "./test-rows.ts";
import { fileIssue, inColumn, layoutWords, rowIssue, words } from "./words.ts";

/** What came of one record of a file that is read by a layout. */
export interface LayoutProgress {
  /** Cells of the header; null: it has not come yet. */
  readonly width: number | null;
  /** The record counts as a row of the file. */
  readonly isRow: boolean;
  /** The file is refused as a whole; the issue says why. */
  readonly refused: boolean;
}

/**
 * Reads the records of a foreign file by its layout. Each reading of a row is judged as a row of the contract, and what is
 * told of it names the line, the heading and the text of the source. `end` is called after the last record; false: no
 * header came, which refuses the file.
 */
export function layoutRows(
  layout: Layout,
  {
    file,
    models,
    today,
    corrections,
  }: Omit<RowContext, "header"> & { readonly corrections: readonly CellCorrection[] },
): {
  readonly take: (record: readonly string[], line: number, sink: FactSink) => LayoutProgress;
  readonly end: (issues: RowIssue[]) => boolean;
} {
  const applier = layoutApplier(layout, corrections);
  const addReading = fragments(file);
  let takers: readonly TakeRow[] = [];
  let places: readonly ReadonlyMap<string, { readonly index: number; readonly spelled: string }>[] = [];
  let width: number | null = null;
  const progress = (isRow: boolean, refused = false): LayoutProgress => ({ width, isRow, refused });
  const mention = (code: string, why: string) => fileIssue("mention", code, { file }, why);

  const take = (record: readonly string[], line: number, sink: FactSink): LayoutProgress => {
    const step = applier.take(record, line);
    if (step.is === "title" || step.is === "header-again") return progress(false);
    if (step.is === "refused") {
      sink.issues.push(fileIssue("refused", step.mismatch.code, { file }, layoutWords.mismatch(step.mismatch)));
      return progress(false, true);
    }
    if (step.is === "opened") {
      width = step.width;
      places = step.sources.map((source) => source.places);
      takers = places.map((own) => {
        const spelledAs = (name: string) => own.get(name)?.spelled ?? name;
        const columns = new Map(canonicalNames.map((name, index) => [name, { index, spelled: spelledAs(name) }]));
        const header = { kind: "tests-long", places: columns, cylinders: [], width: canonicalNames.length } as const;
        return longRows({ file, header, models, today }, { addReading, column: spelledAs("value") });
      });
      if (step.unknown.length > 0) sink.issues.push(mention("columns-unknown", words.columnsUnknown(step.unknown)));
      return progress(false);
    }
    const at = { file, line, column: null, value: null };
    if (step.is === "left-out") {
      sink.issues.push(rowIssue("mention", `left-out-${step.why}`, at, layoutWords.leftOut(step.why, step.text)));
      return progress(false);
    }
    if (!step.measured) sink.issues.push(rowIssue("refused", "nothing-measured", at, words.nothingMeasured));
    for (const { spelled, value, doubt } of step.doubts) {
      const cell = { file, line, column: spelled, value };
      sink.issues.push(rowIssue("refused", `cell-${doubt}`, cell, layoutWords.doubt(doubt, value)));
    }
    const before = sink.issues.length;
    for (const { cells, source } of step.rows) {
      const from = sink.issues.length;
      takers[source]?.(cells, line, sink);
      for (let i = from; i < sink.issues.length; i++) {
        sink.issues[i] = asWritten(sink.issues[i] as RowIssue, step.record, places[source] ?? new Map());
      }
    }
    if (sink.issues.length > before) onceEach(sink.issues, before);
    return progress(true);
  };

  return {
    take,
    end: (issues) => {
      const mismatch = applier.end();
      if (mismatch !== null) issues.push(fileIssue("refused", mismatch.code, { file }, layoutWords.mismatch(mismatch)));
      return mismatch === null;
    },
  };
}

/** The issue with the text that stands in the source, where the sentence tells what was read from it. */
function asWritten(
  issue: RowIssue,
  record: readonly string[],
  places: ReadonlyMap<string, { readonly index: number; readonly spelled: string }>,
): RowIssue {
  const place = [...places.values()].find(({ spelled }) => spelled === issue.column);
  const written = place === undefined ? "" : toldOfCell((record[place.index] ?? "").trim());
  return written === "" || written === issue.value ? issue : { ...issue, value: written };
}

/** What is wrong with a row is found with each of its readings, and told once. */
function onceEach(issues: RowIssue[], from: number): void {
  const told = new Set<string>();
  const own = issues.splice(from);
  for (const issue of own) {
    if (told.has(issue.words)) continue;
    told.add(issue.words);
    issues.push(issue);
  }
}

/**
 * What was told of a row in a column of the contract, told in the column of the source that holds it. The same where none
 * does, because the title block or the layout tells it, or where several do.
 */
export function inOwnColumn(issue: RowIssue, layout: Layout | undefined): RowIssue {
  if (layout === undefined || issue.column === null) return issue;
  const [own, other] = layout.columns.filter((column) => column.is === "field" && column.field === issue.column);
  return own === undefined || other !== undefined || own.header.trim() === "" ? issue : inColumn(issue, own.header);
}
