import { and, count, desc, eq, inArray, isNotNull, max, ne, type SQL, sql } from "drizzle-orm";
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

/** The newest version of each name, by name; `where` narrows them. */
async function newest(store: Store, q: Q, where?: SQL): Promise<LayoutRow[]> {
  const { layouts } = store;
  const ids = q
    .select({ id: max(layouts.id) })
    .from(layouts)
    .groupBy(layouts.name);
  return await q
    .select()
    .from(layouts)
    .where(and(inArray(layouts.id, ids), where))
    .orderBy(layouts.name);
}

/** The versions that hold, by name: the newest of each name, unless it was withdrawn; `where` narrows them. */
const holding = (store: Store, q: Q, where?: SQL): Promise<LayoutRow[]> =>
  newest(store, q, and(eq(store.layouts.withdrawn, false), where));

/** All layouts that hold, by name. */
export const keptLayouts = (store: Store): Promise<LayoutRow[]> => holding(store, store.q);

/** The newest version of every name, those withdrawn among them, with the number of its versions; by name. */
export async function allLayouts(store: Store): Promise<readonly (LayoutRow & { readonly versions: number })[]> {
  const { layouts, q } = store;
  const counted = await q.select({ name: layouts.name, versions: count() }).from(layouts).groupBy(layouts.name);
  const versions = new Map(counted.map((row) => [row.name, row.versions]));
  return (await newest(store, q)).map((row) => ({ ...row, versions: versions.get(row.name) ?? 1 }));
}

/** Names of all layouts, those withdrawn among them, ascending. */
export async function layoutNames(store: Store): Promise<string[]> {
  const { layouts, q } = store;
  const rows = await q.selectDistinct({ name: layouts.name }).from(layouts).orderBy(layouts.name);
  return rows.map(({ name }) => name);
}

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

/** An import that stands and read a file by a layout. */
export interface LayoutUse {
  readonly importId: string;
  readonly at: string;
  readonly by: string;
}

/** The imports that stand and read files by kept layouts, the newest first, by the names that the layouts have now. */
export async function layoutUses(store: Store): Promise<ReadonlyMap<string, readonly LayoutUse[]>> {
  const { imports, importFiles, layouts, q } = store;
  const told = sql<string | null>`${importFiles.layout} ->> 'name'`;
  // A layout that was but offered, or kept from reading the file by a question, read nothing.
  const readBy = sql<string | null>`${importFiles.layout} ->> 'layout'`;
  const rows = await q
    .selectDistinct({ name: told, importId: imports.id, at: imports.at, by: imports.by })
    .from(importFiles)
    .innerJoin(imports, eq(imports.id, importFiles.importId))
    .where(and(eq(imports.state, "committed"), isNotNull(readBy)))
    .orderBy(desc(imports.at), imports.id);
  const renamed = await q
    .select({ from: layouts.renamedFrom, name: layouts.name, at: layouts.at })
    .from(layouts)
    .where(isNotNull(layouts.renamedFrom))
    .orderBy(layouts.id);
  const uses = new Map<string, LayoutUse[]>();
  for (const { name, ...use } of rows) {
    if (name === null) continue;
    // Of a name that changed since: whoever had it then.
    const now = renamed.find(({ from, at }) => from === name && at >= use.at)?.name ?? name;
    uses.set(now, [...(uses.get(now) ?? []), use]);
  }
  return uses;
}

/** Why a version was not kept: somebody saved another since the one that was seen, or another layout has the name. */
export type NotKept = { readonly code: "meanwhile"; readonly by: string } | { readonly code: "name-taken" };

type Kept = Pick<LayoutRow, "name" | "header" | "layout">;

async function insertVersion(
  store: Store,
  q: Q,
  { name, ...row }: Kept,
  was: string,
  { by, at }: Act,
): Promise<number> {
  const id = await takeIds(store, q, 1);
  const renamedFrom = was === name ? null : was;
  await q.insert(store.layouts).values({ id, name, ...row, renamedFrom, by, at });
  const detail = { layout: name, version: id, ...(renamedFrom === null ? {} : { was: renamedFrom }) };
  await recordActivityWith(store, q, { at, by, action: "layout-saved", detail });
  return id;
}

/** Keeps a new version under the name and gives its id. A name that was withdrawn holds again. */
export const saveLayout = (store: Store, kept: Kept, act: Act): Promise<number> =>
  store.tx((q) => insertVersion(store, q, kept, kept.name, act));

/**
 * Keeps a new version of the layout that is called `was`, whose newest version was `after` when it was seen. Under another
 * name, all its versions have that name from now on. `after` null: there is none of that name yet. null: kept.
 */
export function changeLayout(
  store: Store,
  kept: Kept,
  { was, after, ...act }: Act & { readonly was: string; readonly after: number | null },
): Promise<NotKept | null> {
  return store.tx(async (q) => {
    const { layouts } = store;
    const [latest] = await newest(store, q, eq(layouts.name, was));
    if ((latest?.id ?? null) !== after) {
      return after === null ? { code: "name-taken" } : { code: "meanwhile", by: latest?.by ?? "somebody" };
    }
    if (kept.name !== was) {
      const others = await q.select({ id: layouts.id }).from(layouts).where(eq(layouts.name, kept.name)).limit(1);
      if (others.length > 0) return { code: "name-taken" };
      await q.update(layouts).set({ name: kept.name }).where(eq(layouts.name, was));
    }
    await insertVersion(store, q, kept, was, act);
    return null;
  });
}

/** Withdraws the layout of that name with all its versions: it is not offered any more. False: none holds. */
export function withdrawLayout(store: Store, name: string, { by, at }: Act): Promise<boolean> {
  return store.tx(async (q) => {
    const { layouts } = store;
    if ((await holding(store, q, eq(layouts.name, name))).length === 0) return false;
    const withdrawn = { withdrawn: true, withdrawnAt: at, withdrawnBy: by };
    await q
      .update(layouts)
      .set(withdrawn)
      .where(and(eq(layouts.name, name), ne(layouts.withdrawn, true)));
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
