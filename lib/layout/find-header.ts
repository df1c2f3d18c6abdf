import type { HeadingsChoice } from "../schema/reading.ts";
import { readDate } from "./dates.ts";
import { headingKey, joinHeaderRows } from "./header-key.ts";
import { mostColumns } from "./layout.ts";
import { letteredColumns } from "./lettered-columns.ts";
import { readHeading } from "./read-heading.ts";
import type { Meaning } from "./synonyms.ts";

/** Where the headings of a foreign file stand. */
export interface FoundHeader {
  readonly headerRows: 1 | 2;
  /** Place of the first record below the headings. */
  readonly below: number;
  readonly headings: readonly string[];
  readonly title: readonly (readonly string[])[];
}

/** Records among which a header is looked for. */
const looked = 40;
/** Cells of a row by which it is told whether it is a header. */
const cellsLooked = 60;
/** Fewer known headings than so many points make no header. */
const fewest = 4;

const isBareNumber = (cell: string) => /^\d{1,2}$/.test(cell);
/** What stands in data and not in headings. */
const isData = (cell: string) => /^[+-]?\d[\d.,\s]*$/.test(cell) || readDate(cell).is !== "other";

/** What tells one test from another; a table that has two of them is likely one of tests. */
const essential: ReadonlySet<Meaning> = new Set(["unit", "test_date", "meter", "cylinder"]);

interface Looks {
  /** 2 for each heading that is known, less for what is not or looks like data. */
  readonly score: number;
  /** Whether a heading is one of readings; a header without any is taken where no row has one. */
  readonly hasReadings: boolean;
}

/** How much a row looks like headings; null: it is none. */
function looksOf(headings: readonly string[]): Looks | null {
  const lettered = letteredColumns(headings.slice(0, cellsLooked));
  const letters = lettered.filter((place) => place !== null).length;
  const cells = headings
    .slice(0, cellsLooked)
    .filter((_, i) => lettered[i] === null)
    .map((heading) => heading.trim())
    .filter((heading) => heading !== "");
  const bare = cells.filter(isBareNumber).map(Number);
  const countsUp = bare.length >= 2 && bare.every((n, i) => i === 0 || n > (bare[i - 1] as number));
  let score = letters;
  let readings = letters;
  let worded = 0;
  const tells = new Set<Meaning>();
  const told = new Set<string>();
  for (const cell of cells) {
    if (isBareNumber(cell)) {
      score += countsUp ? 1 : -1;
      if (countsUp) readings += 1;
      continue;
    }
    if (isData(cell)) {
      score -= 2;
      continue;
    }
    const { meanings, corrected } = readHeading(cell);
    // Groups of columns have one heading merged over them; what tells them apart stands in the other row.
    const again = told.has(headingKey(cell));
    told.add(headingKey(cell));
    if (meanings.length === 0) score -= 0.5;
    else if (again) score -= 0.25;
    else {
      score += corrected === null ? 2 : 1.5;
      worded += 1;
    }
    if (meanings.includes("value")) readings += 1;
    const [first] = meanings;
    if (first !== undefined && corrected === null && essential.has(first)) tells.add(first);
  }
  const isHeader = score >= fewest && worded > 0 && (readings > 0 || tells.size >= 2);
  return isHeader ? { score, hasReadings: readings > 0 } : null;
}

/** Whether the upper of two rows heads groups of the lower one: at least two cells, or one that is not at the left edge. */
function mayBeUpper(upper: readonly string[], lower: readonly string[]): boolean {
  const cells = upper.slice(0, cellsLooked);
  const filledAbove = cells.flatMap((cell, i) => (cell.trim() === "" ? [] : [i]));
  const [first] = filledAbove;
  if (first === undefined || cells.some((cell) => isData(cell.trim()))) return false;
  if (filledAbove.length === 1 && first === 0) return false;
  const below = lower
    .slice(0, cellsLooked)
    .map((cell) => cell.trim())
    .filter((cell) => cell !== "");
  return below.length > 1 && below.every((cell) => isBareNumber(cell) || !isData(cell));
}

const isBetter = (one: Looks, other: Looks) =>
  one.hasReadings === other.hasReadings ? one.score > other.score : one.hasReadings;

/** The header that a person chose; null: the file has no such rows. */
export function headerAt(records: readonly (readonly string[])[], { row, rows }: HeadingsChoice): FoundHeader | null {
  const lower = records[row - 1];
  const upper = rows === 2 ? records[row - 2] : undefined;
  if (lower === undefined || lower.length > mostColumns || (rows === 2 && upper === undefined)) return null;
  const headings = upper === undefined ? lower.map((cell) => cell.trim()) : joinHeaderRows(upper, lower);
  return { headerRows: rows, below: row, headings, title: records.slice(0, row - rows) };
}

/** The header of a file, of one row or two; null: no row looks like one. Blank records are left out of `records`. */
export function findHeader(records: readonly (readonly string[])[]): FoundHeader | null {
  let best: (FoundHeader & { readonly looks: Looks }) | null = null;
  const offer = (found: FoundHeader) => {
    const looks = looksOf(found.headings);
    if (looks !== null && (best === null || isBetter(looks, best.looks))) best = { ...found, looks };
  };
  for (const [i, record] of records.slice(0, looked).entries()) {
    if (record.length > mostColumns) continue;
    offer({ headerRows: 1, below: i + 1, headings: record.map((cell) => cell.trim()), title: records.slice(0, i) });
    const lower = records[i + 1];
    if (lower === undefined || !mayBeUpper(record, lower)) continue;
    const headings = joinHeaderRows(record, lower);
    offer({ headerRows: 2, below: i + 2, headings, title: records.slice(0, i) });
  }
  return best;
}
