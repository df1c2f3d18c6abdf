import type { FieldProblems } from "../asking/field-problems.ts";

/** What became of the wish to read a file by a layout. */
export interface LayoutOutcome {
  /** The job that reads it; null: none was begun, and the rest says why. */
  readonly job: string | null;
  readonly problem: string | null;
  /** By place: `columns.2`, `constants.unit`, `name`. */
  readonly problems: FieldProblems;
  /** What nothing in the file tells yet, a sentence each. */
  readonly gaps: readonly string[];
}

export const nothingRead: LayoutOutcome = { job: null, problem: null, problems: {}, gaps: [] };
