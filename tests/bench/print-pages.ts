import { table } from "../../cli/table.ts";
import { numberWords } from "../../lib/wording.ts";
import { emptyPage } from "../pages.ts";
import type { PageFigures } from "./pages.ts";

const milliseconds = (seconds: number): string => `${(1000 * seconds).toFixed(1)} ms`;
const kilobytes = (bytes: number): string => (bytes / 1000).toFixed(1);

/** One row for each page and size of fleet; sizes compressed, as they were sent. */
export function pagesTable(figures: readonly PageFigures[]): string {
  const rows = figures.map((f) => [
    f.address === emptyPage.address ? "empty page" : f.address,
    numberWords(f.units),
    milliseconds(f.firstSeconds),
    f.timesEmptyFirst.toFixed(2),
    milliseconds(f.wholeSeconds),
    f.timesEmptyWhole.toFixed(2),
    kilobytes(f.htmlBytes),
    kilobytes(f.scriptBytes),
    kilobytes(f.styleBytes),
  ]);
  const header = [
    "page",
    "units",
    "first byte",
    "times empty (at most 2)",
    "whole",
    "times empty",
    "HTML kB",
    "script kB",
    "style kB",
  ];
  return table(header, rows, [1, 2, 3, 4, 5, 6, 7, 8]);
}
