import { fingerprintOf } from "../fingerprint.ts";

/** The heading of the column in which refused rows tell why, where they are given back to be mended. */
export const reasonHeading = "reason";

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
 * and signs. Columns without a heading count as long as one with a heading comes after them; a last one that tells why rows
 * were refused does not.
 */
export function headerKey(headings: readonly string[]): string {
  const keys = headings.map(headingKey);
  while (keys.at(-1) === "") keys.pop();
  if (keys.at(-1) === reasonHeading) keys.pop();
  const key = keys.join(" | ");
  return key.length <= longestKey ? key : `${key.slice(0, longestKey)}… ${fingerprintOf(key)}`;
}

/**
 * A header of two rows as one: a blank cell of the upper row means the one to its left, as merged cells come. Where both
 * rows say the same, a cell was merged downwards, and it is said once.
 */
export function joinHeaderRows(upper: readonly string[], lower: readonly string[]): readonly string[] {
  let above = "";
  return Array.from({ length: Math.max(upper.length, lower.length) }, (_, i) => {
    const own = (upper[i] ?? "").trim();
    if (own !== "") above = own;
    const below = (lower[i] ?? "").trim();
    // A heading of its own in the upper row alone (`Unit` over a blank) is not that of its right neighbours.
    if (below !== "" && headingKey(own) === headingKey(below)) return below;
    return [below === "" ? own : above, below].filter((part) => part !== "").join(" ");
  });
}

/** Records among which a file's header may stand. */
const looked = 60;

/**
 * The keys of every row of a file's beginning, and of every two rows that may be one header: kept layouts are found by
 * them. `records` have no blank ones among them.
 */
export function headerKeys(records: readonly (readonly string[])[]): readonly string[] {
  const first = records.slice(0, looked);
  const keys = first.flatMap((record, i) => {
    const above = first[i - 1];
    const own = headerKey(record);
    return above === undefined ? [own] : [own, headerKey(joinHeaderRows(above, record))];
  });
  return [...new Set(keys)].filter((key) => key !== "");
}
