import type { FieldProblems } from "../asking/field-problems.ts";

/** What became of the wish to change a depot. */
export interface DepotOutcome {
  /** The change that is in force now; null: nothing was written, and `problem` or `problems` say why. */
  readonly saved: number | null;
  readonly problem: string | null;
  readonly problems: FieldProblems;
  /** Somebody saved the depot meanwhile; `latest` is that change. */
  readonly meanwhile: { readonly by: string; readonly latest: number } | null;
}

export const nothingKept: DepotOutcome = { saved: null, problem: null, problems: {}, meanwhile: null };
