import type { ReadAs } from "../../schema/reading.ts";
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
 * Opens a sheet of an .xlsx workbook: the one named (letter case aside), else the first visible one that holds a cell, else
 * the first hidden one that does. Throws `UnreadableFile` where the archive is no workbook, is damaged or past a limit,
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
  const chosen = name === undefined ? await firstFilled(archive, sheets, context) : sheetNamed(sheets, name);
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

function sheetNamed(sheets: readonly SheetPart[], name: string): SheetPart {
  const folded = name.trim().toLowerCase();
  const found = sheets.find((s) => s.name === name) ?? sheets.find((s) => s.name.trim().toLowerCase() === folded);
  if (found === undefined) throw new UnreadableFile("no-such-sheet", words.sheetNames(sheets.map((s) => s.name)));
  return found;
}

async function firstFilled(archive: Archive, sheets: readonly SheetPart[], context: SheetContext): Promise<SheetPart> {
  for (const sheet of [...sheets.filter((s) => !s.hidden), ...sheets.filter((s) => s.hidden)]) {
    for await (const rows of sheetRows(archive.open(sheet.part), context)) if (rows.length > 0) return sheet;
  }
  throw new UnreadableFile("workbook-empty");
}
