import { and, desc, eq, isNotNull } from "drizzle-orm";
import type { UnitStatus } from "../lib/schema/words.ts";
import type { Store } from "./store.ts";
import { wasEverVisible } from "./visible.ts";

/** A status that a unit was given: by whom, when, why, and whether it still counts. */
export interface StatusTold {
  readonly importId: string;
  readonly status: UnitStatus;
  /** null: not told. */
  readonly reason: string | null;
  readonly by: string;
  readonly at: string;
  /** null: it was not undone. */
  readonly undoneBy: string | null;
}

/** Every status that a unit was ever given, newest first. */
export async function statusHistory(store: Store, unit: string): Promise<StatusTold[]> {
  const { q, unitFacts, imports } = store;
  const rows = await q
    .select({
      importId: imports.id,
      status: unitFacts.status,
      reason: unitFacts.statusReason,
      by: imports.committedBy,
      at: imports.committedAt,
      undoneBy: imports.undoneBy,
    })
    .from(unitFacts)
    .innerJoin(imports, eq(imports.id, unitFacts.importId))
    .where(and(eq(unitFacts.unit, unit), isNotNull(unitFacts.status), wasEverVisible(store)))
    .orderBy(desc(imports.rank));
  return rows.map((row) => ({ ...row, status: row.status ?? "in-service", by: row.by ?? "", at: row.at ?? "" }));
}
