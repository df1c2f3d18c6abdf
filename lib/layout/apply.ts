import type { CellCorrection } from "../schema/reading.ts";
import { canonicalRows } from "./canonical-rows.ts";
import { rowCorrections } from "./correct-rows.ts";
import { joinHeaderRows } from "./header-key.ts";
import { gapsOf, type Layout } from "./layout.ts";
import { locateColumns } from "./locate-columns.ts";
import { beginsTitle, titleAgainst } from "./title-block.ts";
import type { TitleBlock } from "./title-statements.ts";
import { isTotalWord, wordsOf } from "./trade-words.ts";
import type { LayoutMismatch, LayoutStep } from "./types.ts";

/** A title block longer than this is none: the file has another layout. */
const longestTitle = 60;

interface Open {
  readonly isRemark: (index: number) => boolean;
  readonly rows: ReturnType<typeof canonicalRows>;
  readonly header: readonly string[];
  /** The upper row of a header of two. */
  readonly upper: readonly string[] | undefined;
}

/** `Page 2`, `continued`: a sheet that goes on. */
const isOfPage = (record: readonly string[]): boolean =>
  /^(?:(?:page|sheet|of|cont|contd|continued|\d+) ?)*$/.test(wordsOf(record.join(" ")));
const saidIn = (records: TitleBlock): string => (records.flat().find((cell) => cell.trim() !== "") ?? "").trim();

const trimmed = (record: readonly string[]) => record.map((cell) => cell.trim());
const sameRow = (record: readonly string[], header: readonly string[]) =>
  header.every((cell, i) => (record[i] ?? "").trim() === cell);

/**
 * Applies a layout to the records of a file, one after the other, blank ones left out; keeps nothing but the title block
 * and the row before. The header is looked for among the first rows by its headings, so title blocks may differ in
 * length and columns in order. `line` is that of the record in the file, by which its corrections are found. `end` tells
 * why there was no header, after the last record; null: there was one.
 */
export function layoutApplier(
  layout: Layout,
  corrections: readonly CellCorrection[] = [],
): {
  readonly take: (record: readonly string[], line: number) => LayoutStep;
  readonly end: () => LayoutMismatch | null;
} {
  const gaps = gapsOf(layout).filter((gap) => gap === "readings" || gap === "cylinder");
  const title: (readonly string[])[] = [];
  /** Rows since the last reading that hold none and are no totals. */
  let between: (readonly string[])[] = [];
  let open: Open | null = null;
  let nearest: readonly string[] = layout.columns.filter(({ is }) => is !== "ignored").map(({ header }) => header);

  const tellsTests = (field: string) => field === "unit" || field === "test_date" || field === "meter";
  /** What tells one test from another holds for many rows; by a constant, whatever the title says. */
  const isForGood = Object.keys(layout.constants).some(tellsTests);
  const holdsForFile = isForGood || layout.title.some(({ field }) => tellsTests(field));

  const look = (record: readonly string[]): LayoutStep => {
    if (gaps.length > 0) return { is: "refused", mismatch: { code: "layout-gaps", gaps } };
    const upper = layout.headerRows === 2 ? title.at(-1) : undefined;
    if (layout.headerRows === 2 && upper === undefined) {
      title.push(record);
      return { is: "title" };
    }
    const headings = upper === undefined ? record : joinHeaderRows(upper, record);
    const { missing, located } = locateColumns(layout, headings);
    if (missing.length > 0) {
      if (missing.length < nearest.length) nearest = missing;
      title.push(record);
      if (title.length <= longestTitle) return { is: "title" };
      return { is: "refused", mismatch: { code: "layout-header", missing: nearest } };
    }
    if (upper !== undefined) title.pop();
    const against = titleAgainst(layout, title);
    if (against !== null) return { is: "refused", mismatch: { code: "layout-title", ...against } };
    const rows = canonicalRows(layout, located, title, rowCorrections(corrections, layout, located));
    const remarks = new Set(
      layout.columns.flatMap((column, i) =>
        column.is === "field" && column.field === "remarks" ? [located.places[i] as number] : [],
      ),
    );
    const above = upper === undefined ? [...title] : [...title, upper];
    between = [];
    open = { isRemark: (index) => remarks.has(index), rows, header: trimmed(record), upper: upper && trimmed(upper) };
    return { is: "opened", width: headings.length, above, sources: rows.sources, unknown: located.unknown };
  };

  return {
    take: (record, line) => {
      if (open === null) return look(record);
      const { upper } = open;
      if (upper !== undefined && sameRow(record, upper)) return { is: "header-again" };
      if (sameRow(record, open.header)) {
        if (between.every(isOfPage) || !holdsForFile) return { is: "header-again" };
        // Whatever stands between is the title of another sheet, and what the one before told holds no longer.
        if (isForGood) return { is: "refused", mismatch: { code: "layout-blocks", said: saidIn(between) } };
        open = null;
        title.splice(0, title.length, ...between, ...(upper === undefined ? [] : [upper]));
        return look(record);
      }
      if (beginsTitle(record, layout, open.isRemark)) {
        open = null;
        title.splice(0, title.length, ...between, record);
        return { is: "title" };
      }
      const filled = record.filter((cell) => cell.trim() !== "");
      const [first = ""] = filled;
      const step = open.rows.take(record, line);
      // A line of totals has no date of its own; a unit may well be called Max.
      const against = step.measured ? null : titleAgainst(layout, [record]);
      if (against !== null) return { is: "refused", mismatch: { code: "layout-title", ...against } };
      if (step.measured) between = [];
      else if (!isTotalWord(first)) between.push(record);
      if (isTotalWord(first) && !open.rows.hasDate(record)) return { is: "left-out", why: "total", text: first.trim() };
      if (filled.length === 1 && !step.measured) return { is: "left-out", why: "remark", text: first.trim() };
      return { is: "rows", ...step };
    },
    end: () => (open === null ? { code: "layout-header", missing: nearest } : null),
  };
}
