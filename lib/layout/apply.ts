import type { CellCorrection } from "../schema/reading.ts";
import { canonicalRows } from "./canonical-rows.ts";
import { rowCorrections } from "./correct-rows.ts";
import { joinHeaderRows } from "./header-key.ts";
import { gapsOf, type Layout } from "./layout.ts";
import { type LocatedColumns, locateColumns } from "./locate-columns.ts";
import { beginsTitle, titleAgainst } from "./title-block.ts";
import { isTotalWord } from "./trade-words.ts";
import type { LayoutMismatch, LayoutStep } from "./types.ts";

/** A title block longer than this is none: the file has another layout. */
const longestTitle = 60;

interface Open {
  readonly located: LocatedColumns;
  readonly rows: ReturnType<typeof canonicalRows>;
  readonly header: readonly string[];
}

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
  let open: Open | null = null;
  let nearest: readonly string[] = layout.columns.filter(({ is }) => is !== "ignored").map(({ header }) => header);

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
    open = { located, rows, header: record.map((cell) => cell.trim()) };
    return { is: "opened", width: headings.length, sources: rows.sources, unknown: located.unknown };
  };

  return {
    take: (record, line) => {
      if (open === null) return look(record);
      if (sameRow(record, open.header)) return { is: "header-again" };
      if (beginsTitle(record, layout)) {
        // Sheets of several units, one below the other: what the title before told holds no longer.
        open = null;
        title.splice(0, title.length, record);
        return { is: "title" };
      }
      const filled = record.filter((cell) => cell.trim() !== "");
      const [first = ""] = filled;
      const step = open.rows.take(record, line);
      // A line of totals has no date of its own; a unit may well be called Max.
      if (isTotalWord(first) && !open.rows.hasDate(record)) return { is: "left-out", why: "total", text: first.trim() };
      if (filled.length === 1 && !step.measured) return { is: "left-out", why: "remark", text: first.trim() };
      return { is: "rows", ...step };
    },
    end: () => (open === null ? { code: "layout-header", missing: nearest } : null),
  };
}
