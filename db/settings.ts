import { asc, desc, eq, max } from "drizzle-orm";
import { assessmentSettings, checkedSettingsSchema, type Settings, settingsSchema } from "../lib/schema/settings.ts";
import { recordActivityWith } from "./activity.ts";
import type { ChangedMeanwhile } from "./depots.ts";
import { markUnassessedWith, takeIds } from "./meta.ts";
import { remembered } from "./remembered.ts";
import type { Schema } from "./schema.ts";
import type { Q, Store } from "./store.ts";

export type SettingRow = Schema["settings"]["$inferSelect"];

/** The settings in force; what nobody changed has its default. */
export const readSettings = remembered("settings", (store: Store): Promise<Settings> => settingsIn(store, store.q));

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

/** Stands for the settings as they are: another change gives another. 0: nobody changed any. */
export async function settingsVersion({ q, settings }: Store): Promise<number> {
  const [row] = await q.select({ id: max(settings.id) }).from(settings);
  return row?.id ?? 0;
}

/**
 * The same for a person who saw the settings of a `version`: where somebody changed any of them since, nothing is written
 * and that is told.
 */
export function saveSettings(
  store: Store,
  patch: Partial<Settings>,
  { version, ...doer }: { readonly by: string; readonly at: string; readonly version: number },
): Promise<ChangedMeanwhile | null> {
  return store.tx(async (q) => {
    const [last] = await q.select().from(store.settings).orderBy(desc(store.settings.id)).limit(1);
    if (last !== undefined && last.id !== version) return { by: last.by, at: last.at };
    await changeSettingsWith(store, q, patch, doer);
    return null;
  });
}

/** The same within a transaction of the caller's. */
export async function changeSettingsWith(
  store: Store,
  q: Q,
  patch: Partial<Settings>,
  { by, at }: { by: string; at: string },
): Promise<Settings> {
  const before = await settingsIn(store, q);
  const after = checkedSettingsSchema.parse({ ...before, ...patch });
  for (const name of Object.keys(settingsSchema.shape) as (keyof Settings)[]) {
    if (after[name] === before[name]) continue;
    await q.insert(store.settings).values({ id: await takeIds(store, q, 1), name, value: after[name], by, at });
    const detail = { before: before[name], after: after[name] };
    await recordActivityWith(store, q, { at, by, action: "setting-changed", about: name, detail });
  }
  if (assessmentSettings.some((name) => after[name] !== before[name])) await markUnassessedWith(store, q);
  return after;
}

/** Every value that one setting was given, newest first. */
export async function settingHistory({ q, settings }: Store, name: keyof Settings): Promise<SettingRow[]> {
  return await q.select().from(settings).where(eq(settings.name, name)).orderBy(desc(settings.id));
}

/** One change of a setting, with the value that it had before. */
export interface SettingChange extends Omit<SettingRow, "value" | "name"> {
  readonly name: keyof Settings;
  readonly before: Settings[keyof Settings];
  readonly after: Settings[keyof Settings];
}

/** The last changes of all settings, newest first. */
export async function settingChanges({ q, settings }: Store, { limit }: { limit: number }): Promise<SettingChange[]> {
  const rows = await q.select().from(settings).orderBy(asc(settings.id));
  const known: Record<string, unknown> = settingsSchema.parse({});
  const changes: SettingChange[] = [];
  for (const { name, value, ...told } of rows) {
    // A setting that this version of the app does not know any more says nothing to anybody.
    if (!(name in settingsSchema.shape)) continue;
    const change = { ...told, name, before: known[name], after: value };
    known[name] = value;
    // Every value was checked against the schema when it was written.
    changes.push(change as SettingChange);
  }
  return changes.reverse().slice(0, limit);
}
