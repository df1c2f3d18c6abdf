import type { FieldProblems } from "../asking/field-problems.ts";

/** What became of the wish to keep a layout, to put one back or to withdraw it. */
export interface KeptOutcome {
  /** The name that it has now; null: nothing was kept, and the rest says why. */
  readonly saved: string | null;
  readonly problem: string | null;
  /** By place: `columns.2`, `constants.unit`, `name`, `file`. */
  readonly problems: FieldProblems;
  /** What nothing in such a file tells yet, a sentence each. */
  readonly gaps: readonly string[];
  /** Somebody changed it since it was seen. */
  readonly meanwhile: { readonly by: string } | null;
}

export const nothingKept: KeptOutcome = { saved: null, problem: null, problems: {}, gaps: [], meanwhile: null };
