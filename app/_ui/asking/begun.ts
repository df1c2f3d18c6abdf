import type { ChangeLine } from "../change-cells.tsx";
import type { FieldProblems } from "./field-problems.ts";

/** What became of the wish to change something: a job that was begun, or why none was. */
export interface Begun {
  /** null: none was begun, and `problem`, `problems` or `meanwhile` say why; a what-if may also be kept and wait without one. */
  readonly job: string | null;
  /** `preview`: looks at what would change and keeps nothing; `save`: puts it in force. */
  readonly kind: "preview" | "save";
  /** What was read from the fields that differ from what is in force. */
  readonly reads: readonly ChangeLine[];
  readonly problem: string | null;
  readonly problems: FieldProblems;
  /** Who changed it since the person saw it. */
  readonly meanwhile: string | null;
}

export const notBegun: Begun = {
  job: null,
  kind: "preview",
  reads: [],
  problem: null,
  problems: {},
  meanwhile: null,
};

export const notUnderstood = "The form is not understood. Load the page again; nothing was changed.";
