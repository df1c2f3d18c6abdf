import type { ImportCounts } from "./staging.ts";
import type { Store } from "./store.ts";

export type ImportStateError =
  | { readonly code: "unknown-import"; readonly importId: string }
  | { readonly code: "wrong-state"; readonly importId: string; readonly state: string }
  /** Facts changed since the comparison, and the counts with them: show them again, then commit again. */
  | { readonly code: "counts-changed"; readonly importId: string; readonly counts: ImportCounts };

/** As lib/result.ts has it; db imports nothing of lib but its shapes. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: ImportStateError };

/** Makes a staged import visible, whole, in one short transaction. Without `takeChanges` only its new rows count. */
export async function commitImport(
  store: Store,
  importId: string,
  { by, at, takeChanges }: { by: string; at: string; takeChanges: boolean },
): Promise<Outcome<ImportCounts>> {
  throw new Error("body follows");
}

/** Gives up an import that was never committed; its rows are deleted in batches. */
export async function discardImport(
  store: Store,
  importId: string,
  { by, at }: { by: string; at: string },
): Promise<Outcome<null>> {
  throw new Error("body follows");
}

/** Later imports whose files repeated rows of this one; those rows were not stored twice and go with it. */
export interface RepeatedIn {
  readonly importId: string;
  readonly at: string;
  readonly rows: number;
}
export async function repeatedIn(store: Store, importId: string): Promise<RepeatedIn[]> {
  throw new Error("body follows");
}

/** Takes a committed import back, whole. What it had changed is as before; later corrections stand. */
export async function undoImport(
  store: Store,
  importId: string,
  { by, at }: { by: string; at: string },
): Promise<Outcome<{ readonly repeatedIn: readonly RepeatedIn[] }>> {
  throw new Error("body follows");
}

/** Discards imports begun before `olderThan` that never were finished, and deletes rows left of discarded ones. Gives the ids discarded. */
export async function sweepStaged(
  store: Store,
  { olderThan, at }: { olderThan: string; at: string },
): Promise<string[]> {
  throw new Error("body follows");
}
