/** Cells of one row by column; what is left out is blank. */
export type Row = Readonly<Record<string, string | number>>;

const cell = (value: string | number): string => {
  const text = String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

/** CSV text (RFC 4180, but line feeds alone) with a header; throws where a row has a cell that no column is for. */
export function csvText(columns: readonly string[], rows: readonly Row[]): string {
  for (const row of rows) {
    const other = Object.keys(row).find((name) => !columns.includes(name));
    if (other !== undefined) throw new Error(`no column ${other}`);
  }
  return [columns.join(","), ...rows.map((row) => columns.map((name) => cell(row[name] ?? "")).join(","))]
    .map((text) => `${text}\n`)
    .join("");
}
