import { and, countDistinct, eq, ne, or, sql } from "drizzle-orm";
import type { Store } from "./store.ts";
import { isTold } from "./visible.ts";

/** How many repairs of each unit tell what was found; a unit without one is left out. */
export async function findingCounts(store: Store): Promise<Map<string, number>> {
  const { q, repairs, imports } = store;
  const tells = or(ne(repairs.found, sql`'[]'`), ne(repairs.findings, sql`'[]'`));
  const rows = await q
    .select({ unit: repairs.unit, told: countDistinct(repairs.factKey) })
    .from(repairs)
    .innerJoin(imports, eq(imports.id, repairs.importId))
    .where(and(isTold(store, repairs), tells))
    .groupBy(repairs.unit);
  return new Map(rows.map((row) => [row.unit, row.told]));
}
