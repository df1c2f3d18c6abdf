import { readdir, readFile } from "node:fs/promises";
import path from "node:path";
import { hasFacts } from "../../db/facts.ts";
import { listImports } from "../../db/imports.ts";
import { changeSettings, settingHistory } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { type Settings, settingsSchema } from "../../lib/schema/settings.ts";
import { type Committed, commitImport } from "./commit-import.ts";
import { discardImport } from "./discard-import.ts";
import { fileSource } from "./file-source.ts";
import type { ImportSource } from "./import-source.ts";
import { importErrorWords } from "./import-words.ts";
import { JobError } from "./job-registry.ts";
import { type Act, doerOf, type JobControl } from "./progress.ts";
import { reassessDay } from "./reassess-day.ts";
import { stageImport } from "./stage-import.ts";

/** Who the demo fleet's rows and settings are from. */
export const demoName = "demo";

/** What of the demo's settings are the app's; depots' calendars come with the plan. */
const demoSettings = settingsSchema.pick({ fleetName: true, timeZone: true, asOf: true });

/**
 * Loads the demo fleet from its folder through the same intake as anyone's files. Where facts are known already, nothing
 * is changed, but assessments that an earlier call did not come to are made good. May be ended at any moment and called
 * again. Gives what was committed; null: facts were there.
 */
export async function loadDemo(
  store: Store,
  folder: string,
  now: Date,
  control: JobControl = {},
): Promise<Committed | null> {
  const act: Act = { by: demoName, now };
  if (await hasFacts(store)) {
    await reassessDay(store, act, control);
    return null;
  }
  for (const { id, by, state } of await listImports(store)) {
    if (by === demoName && (state === "staging" || state === "staged")) await discardImport(store, id, act);
  }
  const settings = demoSettings.parse(JSON.parse(await readFile(path.join(folder, "settings.json"), "utf8")));
  const { id } = await stageImport(store, await demoFiles(folder), act, control, settings);
  try {
    // The settings come with the rows or not at all: a load cut short must not leave its date behind.
    const outcome = await commitImport(store, id, { ...act, takeChanges: false, settings }, control);
    if (outcome.ok) return outcome.value;
    throw new JobError(`The demo fleet was not loaded. ${importErrorWords(outcome.error)}`);
  } finally {
    // Refused where the import is in.
    await discardImport(store, id, act);
  }
}

/**
 * Puts the settings that the demo brought back to their defaults (the date most of all: one's own fleet is told for
 * today), where nobody has set them since. True: some were.
 */
export async function withdrawDemoSettings(store: Store, act: Act): Promise<boolean> {
  const defaults = settingsSchema.parse({});
  const patch: Partial<Settings> = {};
  for (const name of Object.keys(demoSettings.shape) as (keyof typeof demoSettings.shape)[]) {
    const [newest] = await settingHistory(store, name);
    if (newest?.by === demoName) Object.assign(patch, { [name]: defaults[name] });
  }
  if (Object.keys(patch).length === 0) return false;
  await changeSettings(store, patch, doerOf(act));
  return true;
}

/** The CSV files of the folder and its engine models, ascending by name. */
async function demoFiles(folder: string): Promise<ImportSource[]> {
  const names = (await readdir(folder)).filter((name) => name.endsWith(".csv") || name === "engine-models.json");
  return Promise.all(names.sort().map((name) => fileSource(path.join(folder, name))));
}
