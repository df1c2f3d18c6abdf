import { and, asc, count, eq, lt, max, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/sqlite-core";
import type { Band } from "../lib/schema/words.ts";
import type { Store } from "./store.ts";

export interface BandChange {
  readonly unit: string;
  /** null: not tested. */
  readonly before: Band | null;
  readonly after: Band | null;
}

export interface ImportOutcome {
  /** Units assessed because of it. */
  readonly units: number;
  /** Units that then stood in another band than at their assessment before; those first assessed are not among them. */
  readonly changed: number;
  /** The first of these, by unit. */
  readonly changes: readonly BandChange[];
}

/** What committing an import did to the units that it told of. */
export async function importOutcome(
  store: Store,
  importId: string,
  { limit }: { limit: number },
): Promise<ImportOutcome> {
  const { q, assessments } = store;
  const because = and(eq(assessments.importId, importId), eq(assessments.because, "import"));
  const [assessed] = await q.select({ units: count() }).from(assessments).where(because);
  const previous = alias(assessments, "previous");
  const before = alias(assessments, "before");
  const previousId = q
    .select({ id: max(previous.id) })
    .from(previous)
    .where(and(eq(previous.unit, assessments.unit), lt(previous.id, assessments.id)));
  const changed = q
    .select({
      unit: assessments.unit,
      before: sql<Band | null>`${before.band}`.as("band_before"),
      after: sql<Band | null>`${assessments.band}`.as("band_after"),
    })
    .from(assessments)
    .innerJoin(before, sql`${before.id} = ${previousId}`)
    .where(and(because, sql`${before.band} is distinct from ${assessments.band}`))
    .as("changed");
  const [counted] = await q.select({ total: count() }).from(changed);
  const changes = await q
    .select({ unit: changed.unit, before: changed.before, after: changed.after })
    .from(changed)
    .orderBy(asc(changed.unit))
    .limit(limit);
  return { units: assessed?.units ?? 0, changed: counted?.total ?? 0, changes };
}
