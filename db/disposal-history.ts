import { and, desc, eq, isNotNull } from "drizzle-orm";
import type { IsoDate } from "../lib/schema/facts.ts";
import type { Store } from "./store.ts";
import { wasEverVisible } from "./visible.ts";

/** A planned disposal date that a unit was given: by whom, when, and whether it still counts. */
export interface DisposalTold {
  readonly importId: string;
  readonly date: IsoDate;
  readonly by: string;
  readonly at: string;
  /** null: it was not undone. */
  readonly undoneBy: string | null;
}

/** Every planned disposal date that a unit was ever given, by a form or a file, newest first. */
export async function disposalHistory(store: Store, unit: string): Promise<DisposalTold[]> {
  const { q, unitFacts, imports } = store;
  const rows = await q
    .select({
      importId: imports.id,
      date: unitFacts.disposalDate,
      by: imports.committedBy,
      at: imports.committedAt,
      undoneBy: imports.undoneBy,
    })
    .from(unitFacts)
    .innerJoin(imports, eq(imports.id, unitFacts.importId))
    .where(and(eq(unitFacts.unit, unit), isNotNull(unitFacts.disposalDate), wasEverVisible(store)))
    .orderBy(desc(imports.rank));
  return rows.flatMap(({ date, by, at, ...row }) =>
    date === null ? [] : [{ ...row, date, by: by ?? "", at: at ?? "" }],
  );
}
