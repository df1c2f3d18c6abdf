import { and, asc, eq, inArray, max } from "drizzle-orm";
import type { WrittenLayout } from "../lib/schema/written-house.ts";
import { takeIds } from "./meta.ts";
import type { Q, Store } from "./store.ts";

/** The layouts that are offered, each in its newest version, in the order in which these were saved. */
export async function keptLayouts({ q, layouts }: Store): Promise<WrittenLayout[]> {
  const { name, header, layout, by, at } = layouts;
  const newest = q
    .select({ id: max(layouts.id) })
    .from(layouts)
    .groupBy(layouts.name);
  return await q
    .select({ name, header, layout, by, at })
    .from(layouts)
    .where(and(inArray(layouts.id, newest), eq(layouts.withdrawn, false)))
    .orderBy(asc(layouts.id));
}

/** Puts layouts back as another store of the app had them, within a transaction of the caller's. */
export async function putLayoutsWith(store: Store, q: Q, given: readonly WrittenLayout[]): Promise<void> {
  let id = await takeIds(store, q, given.length);
  for (const { name, header, layout, by, at } of given) {
    await q.insert(store.layouts).values({ id: id++, name, header, layout, by, at });
  }
}
