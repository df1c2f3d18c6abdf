import { readDate } from "./dates.ts";
import { readNumber } from "./numbers.ts";
import type { Sample } from "./suggestion.ts";
import { isUnit, splitUnit } from "./unit-words.ts";

/** Records kept as they come. */
const keptAll = 300;
/** Records kept beyond those, for what they show and none before them did. */
const keptForForm = 300;
/** Cells of a record that are looked at; a file with more columns than that has no layout. */
const mostCells = 1_000;

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

/**
 * Gathers what `suggestLayout` needs of a file of any length, in bounded memory: the first records, and of the others those
 * with a cell that shows what none above it in its column has shown (a 13th day, a decimal sign, a unit). So a suggestion
 * is made from whole columns.
 */
export function sampleCollector(): {
  readonly add: (record: readonly string[]) => void;
  readonly sample: () => Sample;
} {
  const records: (readonly string[])[] = [];
  const forms: Set<string>[] = [];
  const isNews = (record: readonly string[]): boolean => {
    let news = false;
    for (let i = 0; i < record.length && i < mostCells; i++) {
      const form = formOf(record[i] as string);
      forms[i] ??= new Set();
      const known = forms[i] as Set<string>;
      if (known.has(form)) continue;
      known.add(form);
      news = true;
    }
    return news;
  };
  return {
    add: (record) => {
      if (record.every((cell) => cell.trim() === "")) return;
      if (records.length >= keptAll + keptForForm) return;
      const news = isNews(record);
      if (records.length < keptAll || news) records.push(kept(record));
    },
    sample: () => records,
  };
}
