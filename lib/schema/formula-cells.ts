/**
 * Cells that a spreadsheet would run as a formula, made harmless on the way out and read back as they were
 * (docs/decisions/0013-way-out.md). Every file that the app writes or reads goes through these two.
 */

/** The signs that begin a formula, also in full width, and the blanks that some programs skip before one. */
const beginsFormula = /^'*[=+\-@\t\r\n＝＋－＠]/;
/** The same behind at least one apostrophe: the sign by which spreadsheets themselves mark text. */
const marked = /^'+[=+\-@\t\r\n＝＋－＠]/;
const plainNumber = /^[+-]?\d+([.,]\d+)*$/;

/** Text for a cell of a file: with an apostrophe in front where a spreadsheet would run it. */
export const harmless = (text: string): string =>
  beginsFormula.test(text) && !plainNumber.test(text) ? `'${text}` : text;

/** The text that stood there before `harmless`, for every text; also of cells that a person marked as text. */
export const asTyped = (cell: string): string => (marked.test(cell) ? cell.slice(1) : cell);
