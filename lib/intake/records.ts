import Papa, { type ParseResult } from "papaparse";
import { type DelimiterName, delimiterNames } from "../schema/reading.ts";

/**
 * Text to CSV records with their line numbers (RFC 4180, and what is common beside it: LF or CR alone as line break,
 * a missing last line break, stray quotes inside an unquoted cell).
 */

export type Delimiter = "," | ";" | "\t" | "|";

/** A place where quotes do not close. `gaveUp`: too many of these, nothing from this line on is read. */
export interface QuoteFault {
  readonly line: number;
  readonly code: "quote-never-closed" | "gave-up" | "line-too-long";
}

export interface RecordBlock {
  readonly records: readonly string[][];
  /** For each record the line of the file on which it starts, from 1. */
  readonly lines: readonly number[];
  readonly faults: readonly QuoteFault[];
  /** Nothing more is read: the last fault says from which line on. */
  readonly stopped: boolean;
}

/** A record longer than this is not a row of test results: a quote was opened and never closed. */
const longestRecord = 1 << 20;
/** Each unclosed quote costs a second look at its block; a file with more of them is not worth reading on. */
const mostFaults = 100;

const countBreaks = (text: string) => {
  let count = 0;
  for (let at = text.indexOf("\n"); at !== -1; at = text.indexOf("\n", at + 1)) count += 1;
  return count;
};

/**
 * A reader that is fed the text piece by piece. papaparse looks for one line break only, so a CR alone is fed to it as
 * CR CR LF; the CR at the end of a record is then taken off, and one inside quotes is put back as it was. A line whose
 * quote is never closed is given up, and reading goes on with the next line: one slip must not swallow the rest.
 */
export function recordReader(delimiter: Delimiter): (text: string, last: boolean) => RecordBlock {
  const parser = new Papa.Parser({ delimiter, newline: "\n", quoteChar: '"' });
  let rest = "";
  let heldCr = false;
  let line = 1;
  let faultCount = 0;
  let stopped = false;

  const withOneLineBreak = (text: string, last: boolean): string => {
    let piece = heldCr ? `\r${text}` : text;
    heldCr = !last && piece.endsWith("\r");
    if (heldCr) piece = piece.slice(0, -1);
    return piece.includes("\r") ? piece.replace(/\r(?!\n)/g, "\r\r\n") : piece;
  };

  return (text, last) => {
    const records: string[][] = [];
    const lines: number[] = [];
    const faults: QuoteFault[] = [];
    const stop = (code: QuoteFault["code"]) => {
      faults.push({ line, code });
      stopped = true;
      rest = "";
    };
    /** Takes over complete records; `line` is then that of the record after them. */
    const keep = (found: readonly string[][], quoted: boolean) => {
      for (const record of found) {
        records.push(record);
        lines.push(line);
        line += 1;
        // A CR at the end is that of the line break: inside quotes it would stand before an LF still.
        const end = record.length - 1;
        const cell = record[end] as string;
        if (cell.endsWith("\r")) record[end] = cell.replace(/\r+$/, "");
        if (quoted) line += putBackLineBreaks(record);
      }
    };

    rest += withOneLineBreak(text, last);
    if (last && rest !== "" && !rest.endsWith("\n")) rest += "\n";
    while (rest !== "" && !stopped) {
      const quoted = rest.includes('"');
      let result: ParseResult<string[]> = parser.parse(rest, 0, true);
      const leftOver = rest.length - result.meta.cursor;
      let faultRow = quoted ? firstFault(result, rest, delimiter) : null;
      if (faultRow === null) {
        keep(result.data, quoted);
        rest = rest.slice(result.meta.cursor);
        if (leftOver === 0 || (!last && leftOver <= longestRecord)) break;
        // What is left over is looked at again as if the file ended here, to learn where its open quote stands.
        result = parser.parse(rest, 0, false);
        faultRow = firstFault(result, rest, delimiter);
        if (faultRow === null) {
          stop("line-too-long");
          break;
        }
      }
      const lineBefore = line;
      keep(result.data.slice(0, faultRow), quoted);
      faultCount += 1;
      if (faultCount > mostFaults) {
        stop("gave-up");
        break;
      }
      // The record's first line alone: its other lines may be rows that an open quote swallowed.
      faults.push({ line, code: "quote-never-closed" });
      rest = rest.slice(afterBreaks(rest, line - lineBefore + 1));
      line += 1;
    }
    return { records, lines, faults, stopped };
  };
}

/**
 * The first record whose quotes cannot be trusted, by its place in `data`; null: none. That is one with an open quote,
 * or one that runs over its line though quotes stand in it where none may: then a quote left open on its first line
 * was closed by one that opened a cell further down, and the rows between are no cell's text.
 */
function firstFault({ errors, data }: ParseResult<string[]>, text: string, delimiter: Delimiter): number | null {
  const open = errors.find(
    ({ code, row }) => code === "MissingQuotes" || (code === "InvalidQuotes" && overLine(data[row ?? -1] ?? [])),
  );
  const end = open?.row ?? data.length;
  let at = 0;
  let passed = 0;
  for (let row = 0; row < end; row++) {
    const record = data[row] as string[];
    if (!overLine(record)) {
      passed += 1;
      continue;
    }
    at = afterBreaks(text, passed, at);
    passed = 0;
    const next = afterBreaks(text, 1 + record.reduce((sum, cell) => sum + countBreaks(cell), 0), at);
    if (!isWellQuoted(text.slice(at, next), delimiter)) return row;
    at = next;
  }
  return open === undefined ? null : end;
}

const overLine = (record: readonly string[]) => record.some((cell) => cell.includes("\n"));

/** Where the text goes on after so many line breaks. */
function afterBreaks(text: string, breaks: number, from = 0): number {
  let at = from;
  for (let i = 0; i < breaks; i++) {
    const next = text.indexOf("\n", at);
    if (next === -1) return text.length;
    at = next + 1;
  }
  return at;
}

/** Whether quotes stand only around whole cells of the record (blanks may follow), and doubled within these. */
function isWellQuoted(record: string, delimiter: Delimiter): boolean {
  for (let at = 0; at < record.length; ) {
    if (record[at] === '"') {
      let close = record.indexOf('"', at + 1);
      while (close !== -1 && record[close + 1] === '"') close = record.indexOf('"', close + 2);
      if (close === -1) return false;
      at = close + 1;
      while (record[at] === " ") at += 1;
      if (record[at] !== delimiter) return record[at] === "\n" || record[at] === "\r";
    } else {
      const next = record.indexOf(delimiter, at);
      const end = next === -1 ? record.length : next;
      if (record.slice(at, end).includes('"')) return false;
      at = end;
    }
    at += 1;
  }
  return true;
}

/** How many line breaks the cells of a record hold; each CR that was fed as CR CR LF is put back. */
function putBackLineBreaks(record: string[]): number {
  let count = 0;
  for (let i = 0; i < record.length; i++) {
    const cell = record[i] as string;
    if (!cell.includes("\n")) continue;
    count += countBreaks(cell);
    if (cell.includes("\r\r\n")) record[i] = cell.replace(/\r\r\n/g, "\r");
  }
  return count;
}

/** Characters of a file's beginning that vote on its delimiter. */
const beginning = 1 << 16;

/** Whole lines of the beginning; the one that is cut off says too little. */
export function firstLines(text: string, isWhole: boolean): string {
  if (isWhole && text.length <= beginning) return text;
  const lines = text.slice(0, beginning);
  const end = Math.max(lines.lastIndexOf("\n"), lines.lastIndexOf("\r"));
  return end === -1 ? lines : lines.slice(0, end);
}

/** Rows that vote on the delimiter. */
const rowsAsked = 100;
/** As `delimiterNames` has them: the order in which they are taken where nothing else tells them apart. */
const delimiters: readonly Delimiter[] = [",", ";", "\t", "|"];

export const delimiterName = (delimiter: Delimiter): DelimiterName =>
  delimiterNames[delimiters.indexOf(delimiter)] as DelimiterName;
export const delimiterNamed = (name: DelimiterName | undefined): Delimiter | null =>
  name === undefined ? null : (delimiters[delimiterNames.indexOf(name)] ?? null);

/**
 * The delimiter of a file by its first lines: the one by which most of them have the same number of cells, at least two;
 * among equals the one that gives more cells. So neither a title above the header nor decimal commas below it decide, for
 * they do not part all lines alike. A comma where nothing parts any line.
 */
export function delimiterOf(firstLines: string): Delimiter {
  let best = { delimiter: "," as Delimiter, rows: 0, cells: 0 };
  for (const delimiter of delimiters) {
    const { rows, cells } = agreement(firstLines, delimiter);
    if (rows > best.rows || (rows === best.rows && cells > best.cells)) best = { delimiter, rows, cells };
  }
  return best.delimiter;
}

/** How many of the rows have the number of cells that most rows of at least two have, and that number. */
function agreement(text: string, delimiter: Delimiter): { readonly rows: number; readonly cells: number } {
  const { data } = Papa.parse<string[]>(text, { delimiter, preview: rowsAsked, skipEmptyLines: "greedy" });
  const rowsOf = new Map<number, number>();
  for (const { length } of data) if (length > 1) rowsOf.set(length, (rowsOf.get(length) ?? 0) + 1);
  let most = { rows: 0, cells: 0 };
  for (const [cells, rows] of rowsOf) {
    if (rows > most.rows || (rows === most.rows && cells > most.cells)) most = { rows, cells };
  }
  return most;
}
