import { eq, sql } from "drizzle-orm";
import type { Q, Store } from "./store.ts";

/**
 * Takes `count` identifiers that nothing else will have, ascending from the one given. The app makes identifiers, not
 * the database: rows can then be built whole before they are written.
 */
export async function takeIds(store: Store, q: Q, count: number): Promise<number> {
  return (await advance(store, q, "ids", count)) - count + 1;
}

/** Marks that what is visible has changed, and gives the new version. */
export const nextFactsVersion = (store: Store, q: Q): Promise<number> => advance(store, q, "facts-version", 1);

/** Counts up at every commit and undo. */
export async function factsVersion(store: Store, q: Q): Promise<number> {
  const { meta } = store;
  const [row] = await q.select().from(meta).where(eq(meta.name, "facts-version"));
  return row?.value ?? 0;
}

async function advance({ meta }: Store, q: Q, name: string, by: number): Promise<number> {
  const [row] = await q
    .insert(meta)
    .values({ name, value: by })
    .onConflictDoUpdate({ target: meta.name, set: { value: sql`${meta.value} + ${by}` } })
    .returning();
  return row!.value;
}
