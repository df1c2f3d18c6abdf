import { printable } from "./printable.ts";

/** Columns of text, as wide as their widest cell; the last is not padded. Numbers (`right`) end together. */
export function table(
  header: readonly string[],
  rows: readonly (readonly string[])[],
  right: readonly number[] = [],
): string {
  const shown = rows.map((row) => row.map(printable));
  const all = [header, ...shown];
  const widths = header.map((_, i) => Math.max(...all.map((row) => (row[i] ?? "").length)));
  const line = (row: readonly string[]) =>
    row
      .map((cell, i) => (right.includes(i) ? cell.padStart(widths[i] ?? 0) : cell.padEnd(widths[i] ?? 0)))
      .join("  ")
      .trimEnd();
  return `${[line(header), widths.map((width) => "-".repeat(width)).join("  "), ...shown.map(line)].join("\n")}\n`;
}
