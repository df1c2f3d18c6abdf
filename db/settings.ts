import { asc, desc, eq } from "drizzle-orm";
import { type Settings, settingsSchema } from "../lib/schema/settings.ts";
import { recordActivityWith } from "./activity.ts";
import { takeIds } from "./meta.ts";
import type { Schema } from "./schema.ts";
import type { Q, Store } from "./store.ts";

export type SettingRow = Schema["settings"]["$inferSelect"];

/** The settings in force; what nobody changed has its default. */
export const readSettings = (store: Store): Promise<Settings> => settingsIn(store, store.q);

async function settingsIn({ settings }: Store, q: Q): Promise<Settings> {
  const rows = await q.select({ name: settings.name, value: settings.value }).from(settings).orderBy(asc(settings.id));
  return settingsSchema.parse(Object.fromEntries(rows.map((row) => [row.name, row.value])));
}

/** Changes some settings; the old values stay in the history. Throws (zod) for a value out of range. */
export function changeSettings(
  store: Store,
  patch: Partial<Settings>,
  { by, at }: { by: string; at: string },
): Promise<Settings> {
  return store.tx((q) => changeSettingsWith(store, q, patch, { by, at }));
}

/** The same within a transaction of the caller's. */
export async function changeSettingsWith(
  store: Store,
  q: Q,
  patch: Partial<Settings>,
  { by, at }: { by: string; at: string },
): Promise<Settings> {
  const before = await settingsIn(store, q);
  const after = settingsSchema.parse({ ...before, ...patch });
  for (const name of Object.keys(settingsSchema.shape) as (keyof Settings)[]) {
    if (after[name] === before[name]) continue;
    await q.insert(store.settings).values({ id: await takeIds(store, q, 1), name, value: after[name], by, at });
    const detail = { before: before[name], after: after[name] };
    await recordActivityWith(store, q, { at, by, action: "setting-changed", about: name, detail });
  }
  return after;
}

/** Every value that one setting was given, newest first. */
export async function settingHistory({ q, settings }: Store, name: keyof Settings): Promise<SettingRow[]> {
  return await q.select().from(settings).where(eq(settings.name, name)).orderBy(desc(settings.id));
}
