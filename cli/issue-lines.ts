import type { RowIssue } from "../lib/schema/intake.ts";

const marks: Record<RowIssue["severity"], string> = {
  refused: "",
  warning: " (taken, with a warning)",
  mention: " (for information)",
};

/** "results.csv, line 14, value: 950 % is not a leakage; it must lie between 0 and 100" */
export function issueLine({
  file,
  line,
  words,
  severity,
}: Pick<RowIssue, "file" | "line" | "words" | "severity">): string {
  return `${file}${line === null ? ": " : ", "}${words}${marks[severity]}`;
}
