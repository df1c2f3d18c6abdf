/** What a spreadsheet would take for the beginning of a formula. */
const formulaStart = /^[=+\-@\t\r]/;
const plainNumber = /^[+-]?\d+([.,]\d+)*$/;

/** Cells come out of other people's files: one that a spreadsheet would run is written as text. */
function cell(value: string | number | null): string {
  if (value === null) return "";
  const text = String(value);
  const harmless = formulaStart.test(text) && !plainNumber.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

/** One line of CSV (RFC 4180), harmless to open in a spreadsheet. */
export const csvLine = (cells: readonly (string | number | null)[]): string => `${cells.map(cell).join(",")}\r\n`;

/** At the start of a file: tells spreadsheets that it is UTF-8. */
export const byteOrderMark = "\ufeff";
