import type { CellDoubt } from "../layout/convert-cell.ts";
import type { LayoutGap } from "../layout/layout.ts";
import type { LayoutMismatch } from "../layout/types.ts";
import type { CellFault, NumberRange } from "../schema/cells.ts";
import type { RowIssue } from "../schema/intake.ts";
import { type DelimiterName, type Encoding, toldOfCell } from "../schema/reading.ts";
import type { Column } from "../schema/rows.ts";
import type { FileKind, MeterUnit, ValueUnit } from "../schema/words.ts";
import { numberWords } from "../wording.ts";
import type { QuoteFault } from "./records.ts";
import type { Unreadable } from "./text-blocks.ts";

/** Every sentence that intake says to a person. None ends in a full stop: callers put the file's name before it. */

type Severity = RowIssue["severity"];

/** An issue of a row: its line and column go before the sentence. */
export function rowIssue(
  severity: Severity,
  code: string,
  at: { readonly file: string; readonly line: number; readonly column: string | null; readonly value: string | null },
  why: string,
): RowIssue {
  const { file, line, column } = at;
  return {
    severity,
    code,
    file,
    line,
    column,
    value: at.value === null ? null : toldOfCell(at.value),
    words: `${placeWords(line, column)}: ${why}`,
  };
}

const placeWords = (line: number, column: string | null): string =>
  column === null ? `line ${line}` : `line ${line}, ${column}`;

/** The issue of a cell told by another name of its column. */
export function inColumn(issue: RowIssue, column: string): RowIssue {
  if (issue.line === null) return { ...issue, column };
  const before = placeWords(issue.line, issue.column);
  const why = issue.words.startsWith(before) ? issue.words.slice(before.length) : `: ${issue.words}`;
  return { ...issue, column, words: `${placeWords(issue.line, column)}${why}` };
}

/** How a file tells that the meter was replaced. */
export const meterResetInFile = "add a meter reading of the new meter with meter_reset = yes";

/** An issue of a file as a whole. */
export function fileIssue(severity: Severity, code: string, at: { readonly file: string }, why: string): RowIssue {
  return { severity, code, file: at.file, line: null, column: null, value: null, words: why };
}

/** `a`, `a or b`, `a, b or c`. */
function orList(items: readonly string[]): string {
  if (items.length < 2) return items.join("");
  return `${items.slice(0, -1).join(", ")} or ${items[items.length - 1]}`;
}
const andList = (items: readonly string[]) => orList(items).replace(/ or (?=[^ ]*$)/, " and ");

const mostNamed = 12;
/** As `andList`, but nobody reads a hundred thousand of them. */
const firstOf = (items: readonly string[]) =>
  items.length <= mostNamed + 1
    ? andList(items)
    : `${items.slice(0, mostNamed).join(", ")} and ${numberWords(items.length - mostNamed)} more`;

const longestQuote = 60;
/** A value as written, short enough for a sentence. */
const quote = (text: string) => {
  const shown = text.trim();
  return shown.length > longestQuote ? `"${shown.slice(0, longestQuote)}…"` : `"${shown}"`;
};

/** Nobody counts seven noughts; a small bound is told as it would be written in the file. */
const boundWords = (bound: number) => (bound < 100_000 ? String(bound) : numberWords(bound));

function rangeWords({ above, atLeast, atMost }: NumberRange): string {
  if (atLeast !== undefined && atMost !== undefined) return `it must lie between ${atLeast} and ${boundWords(atMost)}`;
  if (atLeast !== undefined) return atLeast === 0 ? "it must not be negative" : `it must be at least ${atLeast}`;
  if (above !== undefined && atMost !== undefined) return `it must be above ${above} and at most ${boundWords(atMost)}`;
  if (above !== undefined) return `it must be above ${above}`;
  return `it must be at most ${atMost}`;
}

/** `12,480` might be 12480 or 12.48: both are offered, none is guessed. Of a point and a comma the last is the decimal sign. */
function decimalComma(text: string): string {
  const commaIsLast = text.includes(".") && text.lastIndexOf(",") > text.lastIndexOf(".");
  const whole = commaIsLast ? text.replace(/\./g, "").replace(",", ".") : text.replace(/,/g, "");
  const point = text.indexOf(",") === text.lastIndexOf(",") && !text.includes(".") ? text.replace(",", ".") : null;
  const meant = point === null ? whole : `${point}, or ${whole} if the comma parts the thousands`;
  return `${quote(text)} is not read as a number: decimal points are dots, and nothing parts the thousands; write ${meant}`;
}

/** Why a cell was refused. */
export function cellWords(
  fault: CellFault,
  text: string,
  column: Pick<Column, "allowed" | "range" | "needed">,
): string {
  const allowed = column.allowed ?? [];
  switch (fault) {
    case "empty":
      return allowed.length > 0 ? `is empty; it must be ${orList(allowed)}` : "is empty; it is needed";
    case "not-measured":
      return `${quote(text)} is not a reading; leave out the row of what was not measured`;
    case "not-a-number":
      return /^[+-]?[\d.]+\s*[^\d\s.]/.test(text.trim())
        ? `${quote(text)} is not a number; write the number alone, without a unit`
        : `${quote(text)} is not a number`;
    case "decimal-comma":
      return decimalComma(text.trim());
    case "not-whole":
      return `${quote(text)} is not a whole number`;
    case "out-of-range":
      return `${quote(text)} is not possible; ${rangeWords(column.range ?? {})}`;
    case "not-a-date":
      return `${quote(text)} is not a date; write it as YYYY-MM-DD, such as 2026-06-30`;
    case "no-such-date":
      return `there is no date ${text.trim()}`;
    case "unknown-word":
      return `${quote(text)} is not known; it must be ${orList(allowed)}`;
    case "none-with-others":
      return `${quote(text)} names none beside another place; it can only be one of the two`;
    case "bad-list":
      return `${quote(text)} must be "all" or cylinder numbers joined by +, such as 2+3`;
    case "too-long":
      return `the text is too long (${text.trim().length} characters)`;
    case "control-character":
      return `${quote(text)} holds a control character, which nobody can see; write it anew`;
    case "not-a-name":
      return `${quote(text)} is not a name; it needs a letter or a digit`;
  }
}

const kindNames: Record<FileKind, string> = {
  "tests-long": "test results, one row for each cylinder",
  "tests-wide": "test results, one column for each cylinder",
  units: "a list of units",
  depots: "a list of depots",
  repairs: "repairs",
  meters: "meter readings",
  checks: "checks",
  judgements: "judgements of tests",
  "engine-models": "engine models",
};

const partedBy: Record<DelimiterName, string> = { comma: "commas", semicolon: "semicolons", tab: "tabs", bar: "bars" };
const encodingTitles: Record<Encoding, string> = {
  "utf-8": "UTF-8",
  "utf-16le": "UTF-16 (little endian)",
  "utf-16be": "UTF-16 (big endian)",
  "windows-1252": "Windows-1252",
};

const sheetNames = (sheets: readonly string[]) =>
  andList(sheets.slice(0, 12).map(quote)) + (sheets.length > 12 ? " …" : "");

/** Why a file cannot be read, and what to do; `about`: see `Unreadable`. */
const unreadable: Record<Unreadable, (about: string) => string> = {
  "not-utf8": () =>
    "letters of the file are not UTF-8 text, so they cannot be read for sure; save it again as CSV UTF-8, or say which encoding it has",
  "not-utf16": () =>
    "the file begins as UTF-16 text but does not go on as such; save it again as CSV UTF-8, or say which encoding it has",
  pdf: () => "the file is a PDF document, not text; results must come as CSV or as an .xlsx workbook",
  compressed: () => "the file is compressed; unpack it first",
  binary: () => "the file is not text (it holds zero bytes); save it as CSV UTF-8",
  archive: () =>
    "the file is an archive, but no .xlsx workbook; unpack it first, or save the sheet as an .xlsx workbook or as CSV UTF-8",
  "workbook-old": () =>
    "the file is a workbook of an older kind, or one that is locked by a password; save it as an .xlsx workbook without a password",
  "workbook-locked": () => "the workbook is locked by a password; save it without one",
  "workbook-damaged": () =>
    "the workbook is damaged and cannot be read to its end; open it, save it again, and give the new file",
  "workbook-too-large": (limit) =>
    `the workbook is too large (${limit}); save the sheet as CSV UTF-8, or cut it in two`,
  "workbook-swells": () =>
    "the workbook is packed far more tightly than a spreadsheet program packs one, so it was not unpacked; save the sheet as CSV UTF-8",
  "workbook-empty": () => "no sheet of the workbook holds any cell",
  "no-such-sheet": (sheets) => `the workbook has no sheet of that name; it has ${sheets}`,
};

/** A reading with its unit: `950 %`, `1210 kPa`. */
export const reading = (value: number, unit: ValueUnit) => `${value} ${unit}`;
const rowOf = (row: { readonly file: string; readonly line: number }, from: string) =>
  row.file === from ? `line ${row.line}` : `line ${row.line} of ${row.file}`;

export const words = {
  unreadable: (why: Unreadable, about: string) => unreadable[why](about),
  sheetNames,
  emptyFile: "the file is empty",
  noRows: "the file has a header but no rows",
  noHeader: "the file has no row that names the columns",
  kindUnknown: (columns: readonly string[]) =>
    `what the file holds cannot be told from its first row (${andList(columns.slice(0, 12).map(quote))}); the first row must name the columns`,
  waits: (questions: readonly string[]) =>
    `the file waits for ${questions.length === 1 ? "an answer" : `${questions.length} answers`}, and nothing of it is read before. ${questions.join(" ")}`,
  otherSheet: (sheet: string, sheets: readonly string[]) =>
    `This is its sheet ${quote(sheet)}; the workbook has ${sheetNames(sheets)}, of which another may be read instead.`,
  columnsMissing: (kind: FileKind, missing: readonly string[]) =>
    `the file looks like ${kindNames[kind]}, but ${missing.length === 1 ? "the column" : "the columns"} ${andList(missing)} ${missing.length === 1 ? "is" : "are"} missing`,
  columnTwice: (first: string, second: string) =>
    first === second
      ? `the column ${quote(first)} appears twice; keep one`
      : `the columns ${quote(first)} and ${quote(second)} are the same column; keep one`,
  columnsTwiceMore: (count: number) => `${numberWords(count)} more columns appear twice; keep one of each`,
  columnsUnknown: (names: readonly string[]) =>
    names.length === 1
      ? `the column ${quote(names[0] as string)} is not known and was ignored`
      : `the columns ${firstOf(names.map(quote))} are not known and were ignored`,
  columnsNameless: (positions: readonly number[]) =>
    positions.length === 1
      ? `column ${positions[0]} has no name and was ignored`
      : `columns ${firstOf(positions.map(String))} have no name and were ignored`,
  encoding: (encoding: Encoding) => `the text is read as ${encodingTitles[encoding]}`,
  delimiter: (delimiter: DelimiterName) => `the cells are parted by ${partedBy[delimiter]}`,
  sheet: (sheet: string, sheets: readonly string[]) =>
    `the rows are those of the sheet ${quote(sheet)}; the workbook has ${sheetNames(sheets)}`,
  tooManyCells: (found: number, width: number) =>
    `the row has ${found} cells where the header has ${width}; a cell that holds the delimiter must stand in quotes`,
  quoteFault: (code: QuoteFault["code"]) =>
    ({
      "quote-never-closed":
        'a quote (") opens a cell here and is never closed; the line was left out, and reading went on with the next one',
      "gave-up": "too many quotes are never closed; nothing from this line on was read",
      "line-too-long": "the line is too long for a row of this kind; nothing from this line on was read",
    })[code],

  cylinderOfVerdict: (verdict: string) => `is empty; the verdict ${verdict} is of one cylinder, so tell which`,
  dateAfterToday: (date: string, today: string) => `${date} lies after today (${today})`,
  modelUnknown: (id: string, known: readonly string[]) =>
    known.length === 0
      ? `the engine model ${quote(id)} is not known; no engine models are loaded yet`
      : `the engine model ${quote(id)} is not known; known are ${andList(known.slice(0, 12))}${known.length > 12 ? " …" : ""}`,
  percentForCompression: "% is for leak-down tests; a compression is read in kPa, bar, psi or kgf/cm2",
  supplyNeeded: "is empty; a leak-down value that is a held pressure needs the supply pressure",
  leakageOutside: (value: number) => `${value} % is not a leakage; it must lie between 0 and 100`,
  pressureNegative: (value: number, unit: ValueUnit) =>
    `${reading(value, unit)} is not possible; a pressure must not be negative`,
  pressureTooHigh: (value: number, unit: ValueUnit) =>
    `${reading(value, unit)} is not possible; a pressure must not be above 10,000 kPa`,
  boreInInches: (bore: number) =>
    `${bore} looks like inches: ${Number((bore * 25.4).toFixed(3))} mm; write millimetres`,
  boreUnusual: (bore: number, usual: { readonly least: number; readonly most: number }) =>
    `${bore} mm is unusual for a restrictor, which has ${usual.least} to ${usual.most} mm; taken, but check the unit`,
  heldAboveSupply: (value: number, supply: number, unit: ValueUnit) =>
    `${reading(value, unit)} cannot be held at a supply of ${reading(supply, unit)}`,
  heardAtCompression: "air is listened for in leak-down tests only; the places were not taken over",
  nothingMeasured: "no cylinder of this row was measured",

  cylinderUnknown: (cylinder: number, model: { readonly id: string; readonly cylinders: number }) =>
    `cylinder ${cylinder} does not exist; the engine ${model.id} has ${model.cylinders === 1 ? "one cylinder" : `cylinders 1 to ${model.cylinders}`}`,
  cylindersLost: (units: readonly string[], model: { readonly id: string; readonly cylinders: number }) =>
    `known readings of ${units.length === 1 ? "the unit" : "the units"} ${andList(units.slice(0, 12).map(quote))}${units.length > 12 ? " …" : ""} lie beyond cylinder ${model.cylinders}, the last one of the engine ${model.id} that ${units.length === 1 ? "it has" : "they have"} now; they are kept, but shown nowhere`,
  onlyWithChanges: (unit: string) => `rows of the unit ${quote(unit)} hold only where its changes are taken`,
  unitNew: (unit: string) =>
    `the unit ${quote(unit)} is new; engine_model must be given in one of its tests or in the list of units`,
  unitNewElsewhere: (unit: string) =>
    `the unit ${quote(unit)} is not known; add it to the list of units, with its engine_model`,
  meterUnitOther: (found: MeterUnit, kept: MeterUnit, unit: string) =>
    `the unit ${quote(unit)} keeps its meter in ${kept}, not ${found}; one unit keeps one meter unit`,
  improbable: (value: number, unit: ValueUnit, newKpa: number) =>
    `${reading(value, unit)} is more than 3 times what this engine has when new (${newKpa} kPa); taken, but check the unit`,
  repeated: (other: { file: string; line: number }, from: string) =>
    `the row repeats ${rowOf(other, from)} exactly; it counts once`,
  repeatedCell: (cylinder: number, other: { file: string; line: number }, from: string) =>
    `the reading of cylinder ${cylinder} repeats that in ${rowOf(other, from)}; it counts once`,
  repeatedMore: (count: number) =>
    count === 1
      ? "one more row repeats another exactly; it counts once"
      : `${count} more rows repeat others exactly; each counts once`,
  repeatedOtherwise: (other: { file: string; line: number }, from: string) =>
    `the row gives the same reading as ${rowOf(other, from)} with other details; it counts once`,
  contradicted: (
    told: { readonly said: string; readonly cylinder: number },
    others: readonly { file: string; line: number; said: string }[],
    from: string,
  ) =>
    `${told.said} stands against ${andList(others.map((o) => `${o.said} in ${rowOf(o, from)}`))} for cylinder ${told.cylinder} of the same test; none of them was taken`,
  toldOtherwise: (what: string, others: readonly { file: string; line: number }[], from: string) =>
    `${what} is told otherwise in ${andList(others.map((o) => rowOf(o, from)))}; none of them was taken`,
  sameDayMeter: (other: { file: string; line: number }, from: string) =>
    `${rowOf(other, from)} has another reading of the same day, which counts instead`,
  disagreement: (subject: string, column: string, values: readonly string[], taken: string) =>
    `${subject} is given with ${column} ${andList(values)}; ${taken} was taken`,
  meterBackwards: (meter: string, last: string, lastDate: string, where: string) =>
    `the meter ${meter} is lower than ${last} on ${lastDate} (${where}); if the meter was replaced, ${meterResetInFile}, else correct the figure`,
  meterAhead: (meter: string, next: string, nextDate: string) =>
    `the meter ${meter} is higher than ${next} on the later date ${nextDate}, which is known already; if the meter was replaced in between, ${meterResetInFile}, else correct the figure`,
  rowOf,

  notJson: "the file is not valid JSON",
  workshopFile: "this is a file of prices and workshops: load it on the page Prices and workshops, below Settings",
  modelsShape: 'the file must read { "schemaVersion": 1, "engineModels": [ … ] }',
  modelsTooLong: "the file is too long for a list of engine models",
  modelTwice: (id: string, others: readonly string[]) =>
    `${quote(id)} is also the id of ${andList(others)}; none of them was taken`,
  modelElsewhere: (id: string, file: string) =>
    `the engine model ${quote(id)} is described otherwise in ${file}, which was read first and counts`,
  modelField: (model: string, path: string, why: string) =>
    `engine model ${model}${path === "" ? "" : `, ${path}`}: ${why}`,
  fieldUnknown: "is not known and was ignored",
} as const;

const doubtWords: Record<CellDoubt, string> = {
  "number-ambiguous": "may be meant in two ways; say in the layout whether a comma or a dot is the decimal sign",
  "number-other-sign": "does not fit the decimal sign of the layout; write it as the other numbers are written",
  "date-ambiguous": "does not tell day and month apart; say in the layout which of them comes first",
  "supply-unit": "is a supply pressure without a unit; say in the layout in which unit it is",
  "pair-percent":
    "looks like a pressure held of its supply, in a column of per cent; say in the layout in which pressure it is, or write the per cent lost",
  "supply-twice":
    "holds two pressures, and neither is the supply that is told for it; write what was held, and the supply once",
  "unit-other": "has a unit that is not that of this column; write it in the unit of the column, or the figure alone",
};

const gapWords: Record<LayoutGap, string> = {
  readings: "a column with readings",
  unit: "the unit",
  test_date: "the date",
  meter: "the meter reading",
  meter_unit: "the unit of the meter",
  test: "which test it was",
  cylinder: "the cylinder",
  value_unit: "the unit of the readings",
  supply: "the supply pressure",
};

/** What is said of a file that is read by a layout. */
export const layoutWords = {
  doubt: (doubt: CellDoubt, value: string) => `${quote(value)} ${doubtWords[doubt]}`,
  leftOut: (why: "total" | "remark", text: string) =>
    why === "total"
      ? `the row ${quote(text)} looks like a total and was left out`
      : `the row holds no reading but ${quote(text)} and was left out`,
  gaps: (gaps: readonly LayoutGap[]) => andList(gaps.map((gap) => gapWords[gap])),
  mismatch: (mismatch: LayoutMismatch): string => {
    switch (mismatch.code) {
      case "layout-gaps":
        return `the layout does not tell ${layoutWords.gaps(mismatch.gaps)}; add that to it`;
      case "layout-header":
        return `no row of the file has the columns of the layout; missing ${mismatch.missing.length === 1 ? "is" : "are"} ${andList(mismatch.missing.slice(0, 12).map(quote))}; choose another layout, or have one suggested`;
      case "layout-blocks":
        return `the headings come again below ${quote(mismatch.said)}, but by the layout one unit, date or meter reading holds for the whole file; import each sheet by itself, or have the layout read them from the title`;
      case "layout-title":
        return `the title says ${mismatch.said}, but by the layout the file holds ${mismatch.held}; choose another layout`;
    }
  },
};
