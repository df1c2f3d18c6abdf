import { asc, eq } from "drizzle-orm";
import { takeIds } from "./meta.ts";
import type { Schema } from "./schema.ts";
import type { KeptPool } from "./schema-derived.ts";
import type { Store } from "./store.ts";

export type PoolRow = Schema["pools"]["$inferSelect"];

/** The pools in force, as they were put, by model, measure and meter unit. */
export async function poolsInForce<P extends KeptPool>({ q, pools }: Store): Promise<P[]> {
  const rows = await q
    .select({ pool: pools.pool })
    .from(pools)
    .where(eq(pools.inForce, true))
    .orderBy(asc(pools.engineModel), asc(pools.measure), asc(pools.meterUnit));
  // What `putPoolsInForce` was given comes back unchanged; its caller knows what that was.
  return rows.map((row) => row.pool as P);
}

/**
 * From now on exactly these are in force; those replaced stay as versions. One whose fingerprint is in force already
 * for its model, measure and meter unit stays the version that it is.
 */
export function putPoolsInForce(store: Store, given: readonly KeptPool[], { at }: { at: string }): Promise<void> {
  const { pools } = store;
  return store.tx(async (q) => {
    const before = await q.select().from(pools).where(eq(pools.inForce, true));
    const wanted = new Set(given.map(versionOf));
    for (const row of before) {
      if (wanted.has(versionOf(row))) continue;
      await q.update(pools).set({ inForce: false, replacedAt: at }).where(eq(pools.id, row.id));
    }
    const inForce = new Set(before.map(versionOf));
    const fresh = given.filter((pool) => !inForce.has(versionOf(pool)));
    let id = fresh.length === 0 ? 0 : await takeIds(store, q, fresh.length);
    const rows = fresh.map((pool) => ({ ...identityOf(pool), id: id++, pool, madeAt: at, inForce: true }));
    const columns = ["id", "engineModel", "measure", "meterUnit", "fingerprint", "pool", "madeAt", "inForce"];
    await store.bulkInsert(q, pools, columns, rows);
  });
}

const identityOf = ({ engineModel, measure, meterUnit, fingerprint }: KeptPool): KeptPool => ({
  engineModel,
  measure,
  meterUnit,
  fingerprint,
});
const versionOf = (pool: KeptPool): string => JSON.stringify(identityOf(pool));

/** A pool by the fingerprint that an assessment names, in force or not; null: never kept. */
export async function poolOf({ q, pools }: Store, fingerprint: string): Promise<PoolRow | null> {
  const rows = await q.select().from(pools).where(eq(pools.fingerprint, fingerprint)).orderBy(asc(pools.id));
  return rows[0] ?? null;
}
