import { eq } from "drizzle-orm";
import type { Q, Store } from "./store.ts";

/** Two rows of one import that tell of the same thing. The caller words it. */
export interface StagingConflict {
  /**
   * `conflict`: they differ, both are refused. `refused-before`: a further row of a conflict, refused too.
   * `repeat`: they say the same, counted once. `disagreement`: the same value, but another column differs; the first
   * row stands.
   */
  readonly kind: "conflict" | "refused-before" | "repeat" | "disagreement";
  readonly file: string;
  readonly line: number;
  readonly otherFile: string;
  readonly otherLine: number;
  /** Unit, depot or engine model. */
  readonly subject: string;
  readonly cylinder: number | null;
  /** The field of the fact in which they differ; null: none does. */
  readonly column: string | null;
  /** As text, a reading with its unit. */
  readonly value: string | null;
  readonly otherValue: string | null;
}

/** Rows may only be staged, and staging only be finished, before the import is committed or given up. */
export async function assertStaging(store: Store, q: Q, importId: string): Promise<void> {
  const { imports } = store;
  const [row] = await q.select({ state: imports.state }).from(imports).where(eq(imports.id, importId));
  if (row?.state !== "staging" && row?.state !== "staged") {
    throw new Error(`import ${importId} takes no rows: it is ${row?.state ?? "unknown"}`);
  }
}

export const asText = (value: unknown): string | null => {
  if (value === null || value === undefined) return null;
  if (Array.isArray(value)) return value.join("+");
  return typeof value === "object" ? JSON.stringify(value) : String(value);
};
