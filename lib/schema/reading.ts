import { z } from "zod";
import { longestText } from "./cells.ts";
import { columnKey } from "./rows.ts";

/** How the bytes of a text file may stand for letters. */
export const encodings = ["utf-8", "utf-16le", "utf-16be", "windows-1252"] as const;
export type Encoding = (typeof encodings)[number];

/** What may part the cells of a row, by name. */
export const delimiterNames = ["comma", "semicolon", "tab", "bar"] as const;
export type DelimiterName = (typeof delimiterNames)[number];

/** Letters of the heading of a column. */
export const longestHeading = 300;

/** A cell of a file that is to be read as if it held something else. */
export const cellCorrectionSchema = z.strictObject({
  /** null: every row of the file whose cell holds `was`. */
  line: z.number().int().positive().nullable(),
  /** As the contract spells it, or as the header of the file does. */
  column: z.string().min(1).max(longestHeading),
  /** In a file that is read by a layout: of the readings below this heading alone, whatever else the row tells. */
  of: z.string().max(longestHeading).optional(),
  /** `value` was typed by a person as the file writes its cells; left out: it is written as the contract writes it. */
  typed: z.literal(true).optional(),
  /** What the cell holds; one that holds something else is left as it is. */
  was: z.string().max(longestText),
  value: z.string().max(longestText),
});
export type CellCorrection = z.infer<typeof cellCorrectionSchema>;

const wordKey = (text: string) => text.trim().toLowerCase();

/** Columns of names, in which `104`, `0104` and `104 B` are three. */
const nameColumns: ReadonlySet<string> = new Set(
  ["unit", "engine_model", "engine_serial", "depot", "instrument"].map(columnKey),
);

const isDay = /^\d{4}-\d{2}-\d{2}$/;
const startsWithTime = /^[t ]+\d{1,2}:\d{2}/;

const longestTold = 400;

/** What an issue tells of a cell: its beginning alone, for a cell of a megabyte must not be kept with each of its row's. */
export const toldOfCell = (cell: string): string =>
  cell.length <= longestTold ? cell : `${cell.slice(0, longestTold)}…`;

/** Whether a cell is the one whose beginning alone was told. */
const beginsAsTold = (key: string, was: string): boolean =>
  was.length > longestTold && was.endsWith("…") && key.startsWith(wordKey(was.slice(0, -1)));

/**
 * Whether a cell of a column says what a correction is of: `041000` is 41000, `KPA` is kPa, and a time of day may follow a
 * date. A name is but itself. A long cell says it by what an issue told of it.
 */
export function cellHolds(column: string, cell: string, was: string): boolean {
  const [key, wanted] = [wordKey(cell), wordKey(was)];
  if (beginsAsTold(key, was)) return true;
  if (nameColumns.has(columnKey(column))) return cell.trim() === was.trim();
  if (key === wanted) return true;
  if (key === "" || wanted === "") return false;
  if (Number(key) === Number(wanted)) return true;
  return isDay.test(wanted) && key.startsWith(wanted) && startsWithTime.test(key.slice(wanted.length));
}

/** Where a person says that the headings stand: the last row of them, from 1, blank ones not counted, and how many they are. */
export const headingsChoiceSchema = z.strictObject({
  row: z.int().min(1).max(1_000),
  rows: z.union([z.literal(1), z.literal(2)]),
});
export type HeadingsChoice = z.infer<typeof headingsChoiceSchema>;

/** How a person says that a file is to be read; what is left out is found out from the file. */
export const readingChoiceSchema = z.strictObject({
  encoding: z.enum(encodings).optional(),
  delimiter: z.enum(delimiterNames).optional(),
  /** A sheet of a workbook by its name. */
  sheet: z.string().min(1).max(200).optional(),
  /** Where the headings of a foreign file stand. */
  headings: headingsChoiceSchema.optional(),
  /** In the order in which they were made. */
  corrections: z.array(cellCorrectionSchema).max(100_000).optional(),
});
export type ReadingChoice = z.infer<typeof readingChoiceSchema>;

/** How a file was read. What does not apply to it, or was not found out, is null. */
export interface ReadAs {
  readonly encoding: Encoding | null;
  readonly delimiter: DelimiterName | null;
  readonly sheet: string | null;
  /** All sheets of the workbook in their order; a file that is none has none. */
  readonly sheets: readonly string[];
  /** Cells that were read as if they held something else; left out: none. */
  readonly corrections?: readonly CellCorrection[];
}
