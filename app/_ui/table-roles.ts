/**
 * The roles of a table's parts, written out: some browsers take them away where a style sheet lays rows out as blocks, and
 * a screen reader then tells no column of any cell.
 */
export const tableRoles = {
  table: { role: "table" },
  rows: { role: "rowgroup" },
  row: { role: "row" },
  column: { role: "columnheader" },
  head: { role: "rowheader" },
  cell: { role: "cell" },
} as const;
