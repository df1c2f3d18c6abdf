import type { Schema } from "./schema.ts";
import type { Store } from "./store.ts";

export type ActivityRow = Schema["activity"]["$inferSelect"];
export type Activity = Pick<ActivityRow, "at" | "by" | "action"> & Partial<Pick<ActivityRow, "about" | "detail">>;

export async function recordActivity(store: Store, activity: Activity): Promise<void> {
  throw new Error("body follows");
}

/** Newest first. */
export async function recentActivity(
  store: Store,
  { limit, about }: { limit: number; about?: string },
): Promise<ActivityRow[]> {
  throw new Error("body follows");
}
