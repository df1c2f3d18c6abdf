import { formatAt, richText, sharedAt, withoutEscapes } from "./book-parts.ts";
import { cellPlace } from "./cell-place.ts";
import { type DaySystem, numberText } from "./cell-text.ts";
import { damaged, tooLarge, workbookLimits } from "./limits.ts";
import type { NumberFormat } from "./number-format.ts";
import { readXml } from "./xml.ts";

/** A row of a sheet with the cells that hold something, by their columns from 1, ascending. */
export interface SheetRow {
  readonly row: number;
  readonly cells: ReadonlyMap<number, string>;
}

export interface SheetContext {
  readonly strings: readonly string[];
  readonly formats: readonly NumberFormat[];
  readonly days: DaySystem;
}

/** A cell as its XML tells it. */
interface RawCell {
  readonly type: string;
  readonly style: string | undefined;
  /** null: not yet told. */
  value: string | null;
  formula: string;
}

/** A number as XML writes one (XML Schema part 2, 3.2.5); JavaScript would read others too, such as 0x10. */
const xmlNumber = /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?\s*$/;

/**
 * The rows of a sheet as they come, some at a time; memory does not grow with the sheet. A formula counts by the value that
 * the workbook keeps for it; one without a value is told as itself, since it is not blank. Throws `UnreadableFile` for a
 * sheet that is damaged or past a limit.
 */
export async function* sheetRows(
  pieces: AsyncIterable<Uint8Array>,
  context: SheetContext,
): AsyncGenerator<readonly SheetRow[]> {
  let rows: SheetRow[] = [];
  let row = 0;
  let column = 0;
  let cells: Map<number, string> | null = null;
  let cell: RawCell | null = null;
  let field: "value" | "formula" | null = null;
  const left = { cells: workbookLimits.cells, letters: workbookLimits.letters };
  const inline = richText();

  const openRow = (number: string | undefined) => {
    const next = number === undefined ? row + 1 : Number(number);
    if (!Number.isInteger(next) || next <= row || next > workbookLimits.rows) throw damaged();
    row = next;
    column = 0;
    cells = new Map();
  };
  const openCell = ({ r, t, s }: Readonly<Record<string, string>>) => {
    const place = r === undefined ? { row, column: column + 1 } : cellPlace(r);
    if (place.row !== row || place.column <= column || place.column > workbookLimits.columns) throw damaged();
    column = place.column;
    cell = { type: t ?? "n", style: s, value: null, formula: "" };
    inline.begin();
  };
  const openValue = (its: RawCell) => {
    // A second one would be read on to the first, as a figure that neither tells.
    if (its.value !== null) throw damaged();
    its.value = "";
    field = "value";
  };
  const closeCell = () => {
    if (cell === null) return;
    const text = cellText(cell, inline.end(), context);
    cell = null;
    if (text === "") return;
    left.cells -= 1;
    left.letters -= text.length;
    if (left.cells < 0 || left.letters < 0)
      throw tooLarge("its sheet has more than 50 million cells or 1,000 million letters");
    cells?.set(column, text);
  };
  const reader = {
    open: (tag: string, attributes: Readonly<Record<string, string>>) => {
      if (tag === "row") openRow(attributes["r"]);
      else if (tag === "c" && cells !== null) openCell(attributes);
      else if (cell === null) return;
      else if (tag === "v") openValue(cell);
      else if (tag === "f") field = "formula";
      else inline.open(tag);
    },
    text: (text: string) => {
      if (cell !== null && field !== null) cell[field] = (cell[field] ?? "") + text;
      else inline.text(text);
    },
    close: (tag: string) => {
      if (tag === "v" || tag === "f") field = null;
      else if (tag === "c") closeCell();
      else if (tag === "row" && cells !== null) {
        if (cells.size > 0) rows.push({ row, cells });
        cells = null;
      } else inline.close(tag);
    },
  };
  for await (const _ of readXml(pieces, reader)) {
    if (rows.length === 0) continue;
    yield rows;
    rows = [];
  }
}

function cellText(cell: RawCell, inline: string, { strings, formats, days }: SheetContext) {
  const { type, style, formula } = cell;
  const value = cell.value ?? "";
  if (value === "" && type !== "inlineStr") return formula === "" ? "" : `=${formula}`;
  switch (type) {
    case "s":
      return sharedAt(strings, value);
    case "inlineStr":
      return inline;
    case "str":
      return withoutEscapes(value);
    case "b":
      return value.trim() === "1" ? "TRUE" : "FALSE";
    case "n": {
      const number = xmlNumber.test(value) ? Number(value) : Number.NaN;
      return Number.isFinite(number) ? numberText(number, formatAt(formats, style), days) : value;
    }
    default:
      // An error such as #DIV/0!, and a date that is written as one.
      return value;
  }
}
