import { tooLarge, workbookLimits } from "./limits.ts";
import type { MergedArea } from "./merged-areas.ts";
import type { SheetRow } from "./sheet-rows.ts";

/**
 * A sheet's rows as CSV text with commas, row n of the sheet on line n, so that what is said of a line can be found in the
 * spreadsheet program. Line breaks inside a cell become spaces. All cells of a merged area count as holding the value that
 * people see across it; rows below the sheet's last one that holds a cell are not made up.
 */
export async function* sheetText(
  rowsAtATime: AsyncIterable<readonly SheetRow[]>,
  areas: readonly MergedArea[],
): AsyncGenerator<string> {
  const fill = mergedFill(areas);
  let line = 1;
  for await (const rows of rowsAtATime) {
    let text = "";
    for (const { row, cells } of rows) {
      text += "\n".repeat(row - line) + csvLine(fill(row, cells));
      line = row + 1;
    }
    yield text;
  }
}

function csvLine(cells: ReadonlyMap<number, string>): string {
  let text = "";
  let column = 1;
  for (const at of [...cells.keys()].sort((a, b) => a - b)) {
    text += ",".repeat(at - column) + csvCell(cells.get(at) as string);
    column = at;
  }
  return `${text}\n`;
}

/** A bracket at the beginning of a text would make it look like JSON. */
const needsQuotes = /[",]|^\s*[{[]/;

function csvCell(cell: string): string {
  const text = cell.replace(/[\r\n\u2028\u2029\0]+/g, " ");
  return needsQuotes.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Gives a row the values of the merged areas that reach into it. Rows are asked for in ascending order. */
function mergedFill(areas: readonly MergedArea[]) {
  let next = 0;
  let open: { readonly area: MergedArea; readonly value: string | undefined }[] = [];
  const left = { cells: workbookLimits.mergedCells as number, letters: workbookLimits.letters as number };
  return (row: number, cells: ReadonlyMap<number, string>): ReadonlyMap<number, string> => {
    open = open.filter(({ area }) => area.last.row >= row);
    for (let area = areas[next]; area !== undefined && area.first.row <= row; area = areas[++next]) {
      // An area whose first row holds no cell at all shows nothing.
      if (area.first.row === row) open.push({ area, value: cells.get(area.first.column) });
    }
    if (open.length === 0) return cells;
    const filled = new Map(cells);
    for (const { area, value } of open) {
      if (value === undefined) continue;
      const width = area.last.column - area.first.column + 1;
      left.cells -= width;
      left.letters -= width * value.length;
      if (left.cells < 0 || left.letters < 0) throw tooLarge("its merged areas have more than 2 million cells");
      for (let column = area.first.column; column <= area.last.column; column++) filled.set(column, value);
    }
    return filled;
  };
}
