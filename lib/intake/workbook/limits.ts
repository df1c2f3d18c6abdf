import { UnreadableFile } from "../text-blocks.ts";

/** What a workbook may take of a machine. Excel's own sheet ends at 1,048,576 rows and 16,384 columns. */
export const workbookLimits = {
  /** The packed file, which is held in memory. */
  fileBytes: 64_000_000,
  entries: 5_000,
  /** One sheet, unpacked; it is read piece by piece. */
  sheetBytes: 1_000_000_000,
  /** Each other part, unpacked; what is read of them is kept in memory while the sheet is read. */
  partBytes: 128_000_000,
  /** Unpacked to packed. Spreadsheet programs come to some ten, of the dullest sheets to a hundred; a bomb to a thousand. */
  ratio: 250,
  /** Parts smaller than this harm nobody, however tightly they are packed. */
  ratioFromBytes: 1_000_000,
  rows: 1_048_576,
  columns: 16_384,
  /** Cells of a sheet that hold something. */
  cells: 50_000_000,
  /** Letters of all cells together. */
  letters: 1_000_000_000,
  /** Merged areas whose cells take over the value of their first one. */
  mergedAreas: 100_000,
  /** Cells that take over a value so, in all rows. */
  mergedCells: 2_000_000,
} as const;

export const tooLarge = (limit: string) => new UnreadableFile("workbook-too-large", limit);
export const damaged = () => new UnreadableFile("workbook-damaged");
