import type { TestFact } from "../lib/schema/facts.ts";
import type { IntakeChunk } from "../lib/schema/intake.ts";
import type { Store } from "./store.ts";

/** Two rows of one import that tell of the same thing. The caller words it. */
export interface StagingConflict {
  /**
   * `conflict`: they differ, both are refused. `refused-before`: a further row of a conflict, refused too.
   * `repeat`: they say the same, counted once. `disagreement`: the same value, but another column differs; the first row stands.
   */
  readonly kind: "conflict" | "refused-before" | "repeat" | "disagreement";
  readonly file: string;
  readonly line: number;
  readonly otherFile: string;
  readonly otherLine: number;
  /** Unit, depot or engine model. */
  readonly subject: string;
  readonly cylinder: number | null;
  /** The column in which they differ, as the contract spells it; null: none does. */
  readonly column: string | null;
  /** As text, a reading with its unit. */
  readonly value: string | null;
  readonly otherValue: string | null;
}

export async function stageTests(
  store: Store,
  importId: string,
  fragments: readonly TestFact[],
): Promise<StagingConflict[]> {
  throw new Error("body follows");
}

/** The other kinds of fact in a chunk; engine models need the file that they came from. */
export type StagedFacts = Partial<
  Pick<IntakeChunk, "units" | "depots" | "repairs" | "meterReadings" | "checks" | "models">
> & { readonly modelsFile?: string };
export async function stageFacts(store: Store, importId: string, facts: StagedFacts): Promise<StagingConflict[]> {
  throw new Error("body follows");
}

export interface ImportCounts {
  readonly newRows: number;
  readonly knownRows: number;
  readonly changedRows: number;
  readonly refusedRows: number;
  readonly warnedRows: number;
}
/** Compares what was staged with what is visible, and counts. May be called again; nothing becomes visible. */
export async function finishStaging(store: Store, importId: string): Promise<ImportCounts> {
  throw new Error("body follows");
}
