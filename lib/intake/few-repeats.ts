import type { RowIssue } from "../schema/intake.ts";
import { fileIssue, words } from "./words.ts";

/** So many repeated rows of a file are told one by one; the others are counted. */
const repeatsTold = 20;

/**
 * Repeats beyond the first few of each file as one mention: a file given twice must not bury everything else. `pass`
 * gives the issues to be told, batch by batch; `rest` the mentions of what was only counted, once at the end.
 */
export function fewRepeats(): {
  readonly pass: (issues: readonly RowIssue[]) => readonly RowIssue[];
  readonly rest: () => readonly RowIssue[];
} {
  const counts = new Map<string, number>();
  return {
    pass: (issues) =>
      issues.filter((issue) => {
        if (issue.code !== "repeated") return true;
        const count = (counts.get(issue.file) ?? 0) + 1;
        counts.set(issue.file, count);
        return count <= repeatsTold;
      }),
    rest: () =>
      [...counts]
        .filter(([, count]) => count > repeatsTold)
        .map(([file, count]) =>
          fileIssue("mention", "repeated-more", { file }, words.repeatedMore(count - repeatsTold)),
        ),
  };
}
