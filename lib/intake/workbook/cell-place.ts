import { damaged, workbookLimits } from "./limits.ts";

/** Row and column from 1. */
export interface CellPlace {
  readonly row: number;
  readonly column: number;
}

const reference = /^\$?([A-Z]{1,3})\$?(\d{1,7})$/i;

/** `B7` as row 7, column 2; throws `UnreadableFile` for what names no cell of a sheet. */
export function cellPlace(text: string): CellPlace {
  const parts = reference.exec(text);
  if (parts === null) throw damaged();
  let column = 0;
  for (const letter of (parts[1] as string).toUpperCase()) column = column * 26 + letter.charCodeAt(0) - 64;
  const row = Number(parts[2]);
  if (row < 1 || row > workbookLimits.rows || column > workbookLimits.columns) throw damaged();
  return { row, column };
}
