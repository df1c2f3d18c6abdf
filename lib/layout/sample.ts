import { addDate, type DateEvidence, noDates, ownText } from "./date-order.ts";
import { leastDayNumber, mostDayNumber, readDate } from "./dates.ts";
import { addNumber, addWhole, type NumberEvidence, noNumbers } from "./decimal-sign.ts";
import { readNumber } from "./numbers.ts";
import type { Sample } from "./suggestion.ts";
import { isUnit, splitUnit } from "./unit-words.ts";

/** Records kept as they come, among them the header and its title block. */
const keptAll = 300;
/** Records kept beyond those, for what they show and none before them did. */
const keptForForm = 300;
/** Cells of a record that are looked at; a file with more columns than that has no layout. */
const mostCells = 1_000;
/** Cells kept in all: of a wide file fewer records, but never fewer than its beginning. */
const mostCellsKept = 120_000;
const fewestKept = 60;

/** What all cells of a column show of dates and numbers. */
export interface ColumnEvidence {
  readonly dates: DateEvidence;
  readonly numbers: NumberEvidence;
}
const noEvidence = (): ColumnEvidence => ({ dates: noDates(), numbers: noNumbers() });

/** Letters of a figure or date with all that stands beside it. */
const longestFigure = 64;

function addCell({ dates, numbers }: ColumnEvidence, cell: string): void {
  const text = cell.trim();
  if (text === "" || text.length > longestFigure || !/\d/.test(text)) return;
  addDate(dates, text);
  addNumber(numbers, text);
}

/** The evidence of some cells of a column, beside what is known of others. */
export function evidenceOf(texts: readonly string[], before?: ColumnEvidence): ColumnEvidence {
  const evidence = before === undefined ? noEvidence() : structuredClone(before);
  for (const text of texts) addCell(evidence, text);
  return evidence;
}

/** What a cell shows of the order of dates, of the decimal sign and of units; equal for cells that show the same. */
function formOf(cell: string): string {
  const text = cell.trim();
  if (text === "") return "";
  const date = readDate(text);
  if (date.is === "by-order") return `date ${[...date.dates.keys()].join(" ")}`;
  if (date.is === "date") return /^\d+$/.test(text) ? "day number" : "date";
  const { figure, unit: behind } = splitUnit(text);
  const unit = isUnit(behind) ? behind.toLowerCase() : "";
  const read = readNumber(figure, null);
  if (read.is === "other") return "text";
  if (read.is === "ambiguous" || !/[.,]/.test(figure)) return `${read.is} ${unit}`;
  return `number ${readNumber(figure, ".").is} ${readNumber(figure, ",").is} ${unit}`;
}

/** Letters of a cell that are kept; no heading, figure or word of the trade is longer. */
const longestCell = 500;

/** The record in strings of its own: a cell that is cut from a block of the file would hold all of it in memory. */
const kept = (record: readonly string[]): readonly string[] =>
  JSON.parse(JSON.stringify(record.slice(0, mostCells).map((cell) => cell.slice(0, longestCell)))) as string[];

/** Different cells of a column that are remembered, so that the like of them is not looked at again. */
const mostSeen = 4_000;
/** A longer text would have to be copied to be remembered, and seldom comes again. */
const longestSeen = 12;

const isDigit = (text: string, at: number) => text.charCodeAt(at) >= 48 && text.charCodeAt(at) <= 57;
function digitsFrom(text: string, from: number): number {
  let at = from;
  while (at < text.length && isDigit(text, at)) at += 1;
  return at - from;
}

/**
 * How a plain number is written: one like it shows nothing new of its column, but for its size where it has no sign.
 * null: it must be looked at, as a date without signs or a number with three figures behind its sign.
 */
function plainForm(cell: string): string | null {
  const whole = digitsFrom(cell, 0);
  if (whole === 0 || whole >= 8) return null;
  const value = whole === 5 ? Number(cell.slice(0, 5)) : 0;
  const kind = value >= leastDayNumber && value <= mostDayNumber ? "day number" : "";
  if (whole === cell.length) return `${kind}whole`;
  const sign = cell[whole];
  const decimals = digitsFrom(cell, whole + 1);
  const isPlain = whole + 1 + decimals === cell.length && decimals > 0 && decimals !== 3;
  return isPlain && (sign === "." || sign === ",") ? `${kind}${sign}` : null;
}

/** What is gathered of one column beyond the first records. */
interface Gathered {
  /** Forms of plain numbers that were looked at. */
  readonly plain: Set<string>;
  readonly seen: Set<string>;
  readonly forms: Set<string>;
  readonly evidence: ColumnEvidence;
}

/**
 * Gathers what `suggestLayout` needs of a file of any length, in bounded memory: the first records, of the others those with
 * a cell that shows what none above it in its column has shown (a unit, a text among figures), and of all cells what they
 * show of the order of dates and the decimal sign. So a suggestion is made from whole columns.
 */
export function sampleCollector(): {
  readonly add: (record: readonly string[]) => void;
  readonly sample: () => Sample;
} {
  const records: (readonly string[])[] = [];
  const columns: Gathered[] = [];
  let cells = 0;
  let isBeginning = true;
  let news = 0;
  /** Whether one of the cells shows something new; `counts`: whether what they show is evidence beside the records. */
  const look = (record: readonly string[], counts: boolean): boolean => {
    let isNews = false;
    for (let i = 0; i < record.length && i < mostCells; i++) {
      const cell = record[i] as string;
      columns[i] ??= { plain: new Set(), seen: new Set(), forms: new Set(), evidence: noEvidence() };
      const { plain, seen, forms, evidence } = columns[i] as Gathered;
      const form = counts ? plainForm(cell) : null;
      if (form !== null && plain.has(form)) {
        if (form.endsWith("whole")) addWhole(evidence.numbers, Number(cell));
        continue;
      }
      if (counts && cell.length <= longestSeen) {
        if (seen.has(cell)) continue;
        if (seen.size >= mostSeen) seen.clear();
        seen.add(cell);
      }
      if (counts) addCell(evidence, cell);
      if (form !== null) plain.add(form);
      // Once no more records are kept, nobody asks for news.
      if (news >= keptForForm) continue;
      const shown = formOf(cell);
      if (forms.has(shown)) continue;
      forms.add(ownText(shown));
      isNews = true;
    }
    return isNews;
  };
  return {
    add: (record) => {
      if (record.every((cell) => cell.trim() === "")) return;
      isBeginning &&= records.length < fewestKept || (records.length < keptAll && cells < mostCellsKept);
      const isNews = look(record, !isBeginning);
      if (!isBeginning && (!isNews || news >= keptForForm || cells >= mostCellsKept)) return;
      if (!isBeginning) news += 1;
      cells += Math.min(record.length, mostCells);
      records.push(kept(record));
    },
    sample: () => ({ records, columns: columns.map(({ evidence }) => evidence) }),
  };
}
