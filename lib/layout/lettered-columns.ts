import { mostCylinders } from "../schema/rows.ts";

/** Cylinders that a header names by letters: `A`, `B`, `C`, `D`, side by side. */

/** Fewer letters side by side are no row of cylinders. */
const fewest = 3;

/** For each column the place of its letter in such a row, from 1; null: it is in none. Only one row of letters is looked for. */
export function letteredColumns(headings: readonly string[]): readonly (number | null)[] {
  const none = headings.map(() => null);
  const start = headings.findIndex((heading) => /^a$/i.test(heading.trim()));
  if (start === -1) return none;
  let count = 0;
  while ((headings[start + count] ?? "").trim().toUpperCase() === String.fromCharCode(65 + count)) count += 1;
  if (count < fewest || count > mostCylinders) return none;
  return headings.map((_, i) => (i >= start && i < start + count ? i - start + 1 : null));
}
