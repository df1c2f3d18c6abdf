import type { Question } from "../../lib/layout/suggestion.ts";
import type { FileLayout } from "./file-layout.ts";

/** What keeps a foreign file of an import from being read: questions for a person; none: nothing does. */
export function openQuestions(row: { readonly refused: boolean; readonly layout: unknown }): readonly Question[] {
  const told = row.layout as FileLayout | null;
  if (!row.refused || told === null || told.layout !== null) return [];
  return told.questions.filter(({ needed }) => needed);
}
