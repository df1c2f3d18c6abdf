import { eq, sql } from "drizzle-orm";
import { remembered } from "./remembered.ts";
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

/**
 * The version of the facts that all reports in force are up to date with. Behind `factsVersion`: a process was ended
 * between a commit and its assessments, or has not finished them yet.
 */
export async function assessedVersion({ q, meta }: Store): Promise<number> {
  const [row] = await q.select().from(meta).where(eq(meta.name, "assessed-version"));
  return row?.value ?? 0;
}

/** Whether some reports in force were made from other facts or settings than those in force now. */
export const isBehindFacts = remembered(
  "is-behind",
  async (store: Store): Promise<boolean> => (await assessedVersion(store)) < (await factsVersion(store, store.q)),
);

/**
 * Notes that the reports are up to date with a version. Without `whole`, what the one version changed was assessed, and
 * that counts only where everything before it was too.
 */
export function markAssessed(store: Store, version: number, { whole }: { whole: boolean }): Promise<void> {
  const { meta } = store;
  return store.tx(async (q) => {
    const [row] = await q.select().from(meta).where(eq(meta.name, "assessed-version"));
    const before = row?.value ?? 0;
    if (!whole && before !== version - 1) return;
    await setTo(store, q, "assessed-version", Math.max(before, version));
  });
}

/** Notes that the reports have to be made again, all of them. */
export const markUnassessed = (store: Store): Promise<void> => store.tx((q) => markUnassessedWith(store, q));

/** The same within a transaction of the caller's. */
export const markUnassessedWith = (store: Store, q: Q): Promise<void> => setTo(store, q, "assessed-version", -1);

async function setTo({ meta }: Store, q: Q, name: string, value: number): Promise<void> {
  await q.insert(meta).values({ name, value }).onConflictDoUpdate({ target: meta.name, set: { value } });
}
