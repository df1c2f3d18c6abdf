import type { Question } from "../../lib/layout/suggestion.ts";
import { type FileLayout, layoutOfRow } from "./file-layout.ts";

interface Row {
  readonly refused: boolean;
  readonly layout: unknown;
}

const asksForHeadings = ({ questions }: FileLayout) => questions.some(({ code }) => code === "no-header");

/** Whether a file was refused for there is nothing in it: neither headings nor rows. */
export function isEmptyFile(row: Row): boolean {
  const told = layoutOfRow(row);
  if (!row.refused || told === null || !asksForHeadings(told)) return false;
  return told.firstRows.every((cells) => cells.every((cell) => cell.trim() === ""));
}

/**
 * What keeps a foreign file of an import from being read: questions for a person; none: nothing does. Of an empty file
 * nothing is asked, for no row of it could be chosen.
 */
export function openQuestions(row: Row): readonly Question[] {
  const told = layoutOfRow(row);
  if (!row.refused || told === null || told.layout !== null || isEmptyFile(row)) return [];
  return told.questions.filter(({ needed }) => needed);
}
