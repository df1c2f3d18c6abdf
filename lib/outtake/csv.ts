import { harmless } from "../schema/formula-cells.ts";

export type CsvCell = string | number | null;

/** A figure is written as it is; text comes out of other people's files, and may be what a spreadsheet would run. */
function cell(value: CsvCell): string {
  if (value === null) return "";
  if (typeof value === "number") return String(value);
  const text = harmless(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** One line of CSV (RFC 4180), harmless to open in a spreadsheet. null: blank. */
export const csvLine = (cells: readonly CsvCell[]): string => `${cells.map(cell).join(",")}\r\n`;

/** At the start of a file: tells spreadsheets that it is UTF-8. */
export const byteOrderMark = "\ufeff";
