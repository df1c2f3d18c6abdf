import { sum } from "./counts.mjs";

/** @typedef {{ name: string, counts: import("./counts.mjs").Counts, seconds?: number }} Line */

const inWords = ({ passed, failed, skipped }) =>
  `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ""}`;

/**
 * The summary that closes a test run: one line for each step, then the total alone on the last line.
 * @param {Line[]} lines
 */
export function summary(lines) {
  const width = Math.max(...lines.map(({ name }) => name.length));
  const table = lines.map(({ name, counts, seconds }) => {
    const time = seconds === undefined ? "" : `  (${seconds.toFixed(0)} s)`;
    return `${counts.failed > 0 ? "FAIL" : " ok "}  ${name.padEnd(width)}  ${inWords(counts)}${time}`;
  });
  return [...table, "", inWords(sum(lines.map(({ counts }) => counts)))].join("\n");
}
