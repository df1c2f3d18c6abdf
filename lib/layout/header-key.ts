import { fingerprintOf } from "../fingerprint.ts";

/** A kept header is told by its words up to this length; beyond it by their fingerprint as well. */
const longestKey = 500;

/** What is compared of one heading: its letters, figures and unit signs, in any case. */
export const headingKey = (heading: string): string =>
  heading
    .toLowerCase()
    .normalize("NFKC")
    .replace(/[^\p{L}\p{N}%#/]+/gu, " ")
    .trim();

/**
 * The text by which a header is recognised in the next file: its headings in their order, whatever their case, blanks
 * and signs. Columns without a heading count as long as one with a heading comes after them.
 */
export function headerKey(headings: readonly string[]): string {
  const keys = headings.map(headingKey);
  while (keys.at(-1) === "") keys.pop();
  const key = keys.join(" | ");
  return key.length <= longestKey ? key : `${key.slice(0, longestKey)}… ${fingerprintOf(key)}`;
}

/** A header of two rows as one: a blank cell of the upper row means the one to its left, as merged cells come. */
export function joinHeaderRows(upper: readonly string[], lower: readonly string[]): readonly string[] {
  let above = "";
  return Array.from({ length: Math.max(upper.length, lower.length) }, (_, i) => {
    const own = (upper[i] ?? "").trim();
    if (own !== "") above = own;
    const below = (lower[i] ?? "").trim();
    // A heading of its own in the upper row alone (`Unit` over a blank) is not that of its right neighbours.
    return [below === "" ? own : above, below].filter((part) => part !== "").join(" ");
  });
}
