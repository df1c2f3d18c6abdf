import { desc, eq } from "drizzle-orm";
import { takeIds } from "./meta.ts";
import type { Schema } from "./schema.ts";
import type { Q, Store } from "./store.ts";

export type ActivityRow = Schema["activity"]["$inferSelect"];
export type Activity = Pick<ActivityRow, "at" | "by" | "action"> & Partial<Pick<ActivityRow, "about" | "detail">>;

export function recordActivity(store: Store, activity: Activity): Promise<void> {
  return store.tx((q) => recordActivityWith(store, q, activity));
}

/** As part of the transaction that does what is recorded. */
export async function recordActivityWith(store: Store, q: Q, activity: Activity): Promise<void> {
  await q.insert(store.activity).values({ ...activity, id: await takeIds(store, q, 1) });
}

/** Who did what, newest first; with `about` only to that. */
export async function recentActivity(
  store: Store,
  { limit, about }: { limit: number; about?: string },
): Promise<ActivityRow[]> {
  const { activity } = store;
  return await store.q
    .select()
    .from(activity)
    .where(about === undefined ? undefined : eq(activity.about, about))
    .orderBy(desc(activity.id))
    .limit(limit);
}
