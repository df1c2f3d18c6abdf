import type { FieldProblems } from "../asking/field-problems.ts";
import type { ChangeLine } from "../change-cells.tsx";

/** What became of the wish to change prices and workshops. */
export interface WorkshopOutcome {
  /** The change that is in force now; null: nothing was written, and `problem`, `problems` or `meanwhile` say why. */
  readonly saved: number | null;
  readonly problem: string | null;
  readonly problems: FieldProblems;
  /** What was written holds, but may not be meant. */
  readonly cautions: readonly string[];
  /** What the form changes, where it is asked back whether that is meant, and what it changed, where it was saved. */
  readonly changes: readonly ChangeLine[];
  /** Nothing was written yet: `cautions` are new, and it is to be said that they are meant. */
  readonly isAskedBack: boolean;
  /** Somebody saved them meanwhile; `latest` is that change. */
  readonly meanwhile: { readonly by: string; readonly latest: number } | null;
}

export const nothingKept: WorkshopOutcome = {
  saved: null,
  problem: null,
  problems: {},
  cautions: [],
  changes: [],
  isAskedBack: false,
  meanwhile: null,
};

/** What a loaded file would change, and what the person saw while it was looked at. */
export interface LookedAtFile {
  readonly problem: string | null;
  /** `before` null: `after` says both. */
  readonly changes: readonly (Omit<ChangeLine, "before"> & { readonly before: string | null })[];
  /** Repairs that it pins, which are not taken. */
  readonly pins: number;
  readonly seen: SeenBefore;
}

/** The changes that were in force: of prices, and of each depot that the file tells otherwise. */
export interface SeenBefore {
  readonly after: number;
  readonly depots: readonly (readonly [depot: string, change: number | null])[];
}

/** Larger than the file of a fleet of thousands of units, and less than a form may send. */
export const largestWorkshopFile = 500_000;
