import { findHeader } from "../../layout/find-header.ts";
import type { ReadAs } from "../../schema/reading.ts";
import { kindByHeader } from "../header.ts";
import { UnreadableFile } from "../text-blocks.ts";
import { words } from "../words.ts";
import type { Archive } from "./archive.ts";
import { bookPart, bookParts, cellFormats, type SheetPart, sharedStrings } from "./book-parts.ts";
import { mergedAreas } from "./merged-areas.ts";
import { type SheetContext, sheetRows } from "./sheet-rows.ts";
import { sheetText } from "./sheet-text.ts";

/** A sheet of a workbook, to be read as CSV text. */
export interface OpenSheet {
  readonly sheet: Pick<ReadAs, "sheet" | "sheets">;
  /** Its cells as people see them; see `sheetText`. */
  readonly text: () => AsyncGenerator<string>;
  /** How much of the sheet `text` has been made of so far, 0 to 1. */
  readonly share: () => number;
}

/**
 * Opens a sheet of an .xlsx workbook: the one named (letter case aside), else the first visible one with headings of a table
 * we know, else the first visible one that holds a cell; hidden ones come last. Throws `UnreadableFile` where the archive is no workbook, is damaged or past a limit,
 * has no such sheet or no cell.
 */
export async function openSheet(archive: Archive, name?: string): Promise<OpenSheet> {
  const book = await bookPart(archive);
  if (book === null) throw new UnreadableFile("archive");
  const { sheets, days, strings, styles } = await bookParts(archive, book);
  const context: SheetContext = {
    strings: strings === null ? [] : await sharedStrings(archive, strings),
    formats: styles === null ? [] : await cellFormats(archive, styles),
    days,
  };
  const unnamed = async () =>
    (await firstKnown(archive, visible(sheets), context)) ?? (await firstKnown(archive, hidden(sheets), context));
  const chosen = name === undefined ? await unnamed() : sheetNamed(sheets, name);
  if (chosen === null) throw new UnreadableFile("workbook-empty");
  const { part } = chosen;
  let read = 0;
  async function* counted() {
    for await (const piece of archive.open(part)) {
      read += piece.length;
      yield piece;
    }
  }
  return {
    sheet: { sheet: chosen.name, sheets: sheets.map((sheet) => sheet.name) },
    text: async function* () {
      const areas = await mergedAreas(archive.open(part));
      yield* sheetText(sheetRows(counted(), context), areas);
    },
    share: () => Math.min(1, read / Math.max(1, archive.bytesOf(part))),
  };
}

const visible = (sheets: readonly SheetPart[]) => sheets.filter((sheet) => !sheet.hidden);
const hidden = (sheets: readonly SheetPart[]) => sheets.filter((sheet) => sheet.hidden);

function sheetNamed(sheets: readonly SheetPart[], name: string): SheetPart {
  const folded = name.trim().toLowerCase();
  const found = sheets.find((s) => s.name === name) ?? sheets.find((s) => s.name.trim().toLowerCase() === folded);
  if (found === undefined) throw new UnreadableFile("no-such-sheet", words.sheetNames(sheets.map((s) => s.name)));
  return found;
}

/** Rows and columns of a sheet in which headings are looked for. */
const looked = { rows: 40, columns: 200 } as const;

/** The first of the sheets that has headings of a table we know, else the first that holds a cell. */
async function firstKnown(
  archive: Archive,
  sheets: readonly SheetPart[],
  context: SheetContext,
): Promise<SheetPart | null> {
  let filled: SheetPart | null = null;
  for (const sheet of sheets) {
    const records = await firstRecords(archive, sheet, context);
    if (records.length === 0) continue;
    filled ??= sheet;
    if (records.some((record) => kindByHeader(record) !== null) || findHeader(records) !== null) return sheet;
  }
  return filled;
}

async function firstRecords(archive: Archive, { part }: SheetPart, context: SheetContext): Promise<string[][]> {
  const records: string[][] = [];
  for await (const rows of sheetRows(archive.open(part), context)) {
    for (const { cells } of rows) {
      const width = Math.min(looked.columns, Math.max(0, ...cells.keys()));
      records.push(Array.from({ length: width }, (_, i) => cells.get(i + 1) ?? ""));
      if (records.length === looked.rows) return records;
    }
  }
  return records;
}
