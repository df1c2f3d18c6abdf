import { layoutOfRow } from "../../_jobs/file-layout.ts";
import { openQuestions } from "../../_jobs/open-questions.ts";

type Row = Parameters<typeof openQuestions>[0];

/** Whether a file was refused for there is nothing in it: neither headings nor rows. */
export function isEmptyFile(row: Row): boolean {
  const told = layoutOfRow(row);
  if (!row.refused || told === null || told.questions.every(({ code }) => code !== "no-header")) return false;
  return told.firstRows.every((cells) => cells.every((cell) => cell.trim() === ""));
}

/** What is asked of a file before it can be read. Of an empty one nothing: no row of it could be chosen. */
export const askedOfFile = (row: Row): ReturnType<typeof openQuestions> => (isEmptyFile(row) ? [] : openQuestions(row));
