import { cellReader } from "../../../lib/intake/row-reader.ts";
import { cellWords } from "../../../lib/intake/words.ts";
import { type FileField, gapsOf, type Layout, layoutSchema } from "../../../lib/layout/layout.ts";
import { jsonIssueWords } from "../../../lib/schema/json-words.ts";
import { type Column, longColumns } from "../../../lib/schema/rows.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { closedByCells, gapWords } from "./layout-words.ts";

/**
 * Whether rows can be read by a layout. Problems are named by their place: `columns.2`, `constants.unit`; `gaps`: what
 * nothing tells yet, a sentence each.
 */
export function checkLayout(
  given: unknown,
):
  | { readonly ok: true; readonly layout: Layout }
  | { readonly ok: false; readonly problems: FieldProblems; readonly gaps: readonly string[] } {
  const parsed = layoutSchema.safeParse(given, { reportInput: true });
  if (!parsed.success) {
    const problems: Record<string, string> = {};
    for (const issue of parsed.error.issues)
      problems[issue.path.slice(0, 2).join(".")] ??= sentence(jsonIssueWords(issue));
    return { ok: false, problems, gaps: [] };
  }
  const wrong = wrongConstants(parsed.data);
  if (Object.keys(wrong).length > 0) return { ok: false, problems: wrong, gaps: [] };
  const gaps = gapsOf(parsed.data).filter((gap) => !closedByCells.has(gap));
  return gaps.length === 0
    ? { ok: true, layout: parsed.data }
    : { ok: false, problems: {}, gaps: gaps.map((gap) => gapWords[gap]) };
}

/** Values for the whole file that no row could be read with, by their place. */
function wrongConstants({ constants }: Layout): FieldProblems {
  const told = Object.entries(constants) as [FileField, string][];
  return Object.fromEntries(
    told.flatMap(([field, text]) => {
      const column: Column = longColumns[field];
      const outcome = cellReader(column.schema)(text);
      return outcome.ok ? [] : [[`constants.${field}`, `${sentenceWords(cellWords(outcome.fault, text, column))}.`]];
    }),
  );
}

/** "is missing" → "It is missing." */
const sentence = (message: string): string => `It ${message.replace(/[.]$/, "")}.`;
