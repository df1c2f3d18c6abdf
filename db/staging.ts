import { eq } from "drizzle-orm";
import type { Q, Store } from "./store.ts";

/** Rows that are new and hold only beside what the same import changes: they come with the changes or not at all. */
export interface StagedWith {
  readonly withChanges?: ReadonlySet<object>;
}

/** Rows may only be staged, and staging only be finished, before the import is committed or given up. */
export async function assertStaging(store: Store, q: Q, importId: string): Promise<void> {
  const { imports } = store;
  const [row] = await q.select({ state: imports.state }).from(imports).where(eq(imports.id, importId));
  if (row?.state !== "staging" && row?.state !== "staged") {
    throw new Error(`import ${importId} takes no rows: it is ${row?.state ?? "unknown"}`);
  }
}
