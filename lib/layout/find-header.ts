import { readDate } from "./dates.ts";
import { headingKey, joinHeaderRows } from "./header-key.ts";
import { mostColumns } from "./layout.ts";
import { readHeading } from "./read-heading.ts";

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

/** How much a row looks like headings: 2 for each that is known, less for what is not or looks like data. */
function scoreOf(headings: readonly string[]): number {
  const cells = headings
    .slice(0, cellsLooked)
    .map((heading) => heading.trim())
    .filter((heading) => heading !== "");
  const bare = cells.filter(isBareNumber).map(Number);
  const countsUp = bare.length >= 2 && bare.every((n, i) => i === 0 || n > (bare[i - 1] as number));
  let score = 0;
  let readings = 0;
  let worded = 0;
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
  }
  return readings === 0 || worded === 0 ? Number.NEGATIVE_INFINITY : score;
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

/** The header of a file, of one row or two; null: no row looks like one. Blank records are left out of `records`. */
export function findHeader(records: readonly (readonly string[])[]): FoundHeader | null {
  let best: (FoundHeader & { readonly score: number }) | null = null;
  const offer = (found: FoundHeader) => {
    const score = scoreOf(found.headings);
    if (score >= fewest && (best === null || score > best.score)) best = { ...found, score };
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
