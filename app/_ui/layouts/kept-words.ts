import type { LayoutUse } from "../../../db/layouts.ts";
import { countWord, sentenceWords } from "../../../lib/wording.ts";

/** What the pages say of kept layouts. */

/** Somebody was faster: what happened, and what to do. */
export const meanwhileWords = (by: string) => ({
  happened: `${by} changed this layout meanwhile.`,
  kept: "Nothing was kept; what you chose stands here.",
  todo: "Open the layout anew to see what was changed, and change that.",
});

/** The finding of the list. */
export function layoutsFinding(inForce: number, withdrawn: number): string {
  const counted = `${countWord(inForce)} ${inForce === 1 ? "layout" : "layouts"}`;
  const rest = withdrawn === 0 ? "" : `, ${countWord(withdrawn)} withdrawn`;
  if (inForce === 0) return `No layout is in use${rest}.`;
  return `${sentenceWords(counted)} in use${rest}: files with their headings are read without a question.`;
}

/** "Used by three imports, last on 4 March 2026"; `date` writes an instant's day as the viewer reads it. */
export function usesWords(uses: readonly LayoutUse[], date: (at: string) => string): string {
  const [last] = uses;
  if (last === undefined) return "Used by no import yet.";
  return `Used by ${countWord(uses.length)} ${uses.length === 1 ? "import" : "imports"}, last on ${date(last.at)}.`;
}
