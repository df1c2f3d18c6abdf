import { and, desc, eq, inArray, max, type SQL } from "drizzle-orm";
import type { WrittenLayout } from "../lib/schema/written-house.ts";
import { recordActivityWith } from "./activity.ts";
import { takeIds } from "./meta.ts";
import type { Schema } from "./schema.ts";
import type { Q, Store } from "./store.ts";

/** Kept layouts (lib/layout): each save is a version, and the newest version of a name holds. */

/** `layout` is the JSON as it was saved; who reads it checks it. */
export type LayoutRow = Schema["layouts"]["$inferSelect"];

interface Act {
  readonly by: string;
  readonly at: string;
}

/** The versions that hold, by name: the newest of each name, unless it was withdrawn; `where` narrows them. */
async function holding(store: Store, q: Q, where?: SQL): Promise<LayoutRow[]> {
  const { layouts } = store;
  const newest = q
    .select({ id: max(layouts.id) })
    .from(layouts)
    .groupBy(layouts.name);
  return await q
    .select()
    .from(layouts)
    .where(and(inArray(layouts.id, newest), eq(layouts.withdrawn, false), where))
    .orderBy(layouts.name);
}

/** All layouts that hold, by name. */
export const keptLayouts = (store: Store): Promise<LayoutRow[]> => holding(store, store.q);

/** The layout of that name; null: there is none, or it was withdrawn. */
export async function keptLayout(store: Store, name: string): Promise<LayoutRow | null> {
  return (await holding(store, store.q, eq(store.layouts.name, name)))[0] ?? null;
}

/** Every version of a name, the newest first, those withdrawn among them. */
export async function layoutVersions(store: Store, name: string): Promise<LayoutRow[]> {
  const { layouts } = store;
  return await store.q.select().from(layouts).where(eq(layouts.name, name)).orderBy(desc(layouts.id));
}

/** Layouts that hold and are recognised by one of these headers (`headerKeys` of a file), by name. */
export async function layoutsOfHeaders(store: Store, headers: readonly string[]): Promise<LayoutRow[]> {
  return headers.length === 0 ? [] : await holding(store, store.q, inArray(store.layouts.header, [...headers]));
}

/** Keeps a new version under the name and gives its id. A name that was withdrawn holds again. */
export function saveLayout(
  store: Store,
  { name, header, layout }: Pick<LayoutRow, "name" | "header" | "layout">,
  { by, at }: Act,
): Promise<number> {
  return store.tx(async (q) => {
    const id = await takeIds(store, q, 1);
    await q.insert(store.layouts).values({ id, name, header, layout, by, at });
    await recordActivityWith(store, q, { at, by, action: "layout-saved", detail: { layout: name, version: id } });
    return id;
  });
}

/** Withdraws the layout of that name with all its versions: it is not offered any more. False: none holds. */
export function withdrawLayout(store: Store, name: string, { by, at }: Act): Promise<boolean> {
  return store.tx(async (q) => {
    if ((await holding(store, q, eq(store.layouts.name, name))).length === 0) return false;
    await q.update(store.layouts).set({ withdrawn: true }).where(eq(store.layouts.name, name));
    await recordActivityWith(store, q, { at, by, action: "layout-withdrawn", detail: { layout: name } });
    return true;
  });
}

/** Puts layouts back as another store of the app had them, within a transaction of the caller's. */
export async function putLayoutsWith(store: Store, q: Q, given: readonly WrittenLayout[]): Promise<void> {
  let id = await takeIds(store, q, given.length);
  for (const { name, header, layout, by, at } of given) {
    await q.insert(store.layouts).values({ id: id++, name, header, layout, by, at });
  }
}
