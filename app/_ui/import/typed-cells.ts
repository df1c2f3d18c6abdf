import type { WrongCell } from "./import-words.ts";

/** What was typed for refused cells and not read yet, by their issues. */
export type TypedCells = ReadonlyMap<number, { readonly cell: WrongCell; readonly value: string }>;

/** What is asked where one cell is to be read as it stands in its field: all that was typed elsewhere goes along. */
export function asked(pressed: WrongCell, typed: TypedCells) {
  const also = [...typed.values()]
    .filter(({ cell, value }) => cell.issue !== pressed.issue && value !== cell.value)
    .map(({ cell, value }) => ({ issue: cell.issue, value }));
  return { issue: pressed.issue, value: typed.get(pressed.issue)?.value ?? pressed.value, also };
}
