"use server";

import { revalidatePath } from "next/cache";
import { appStore } from "../../../db/app-store.ts";
import { readSettings, settingChanges, settingsVersion } from "../../../db/settings.ts";
import type { Settings } from "../../../lib/schema/settings.ts";
import { changeSettingsAndReassess, touchesUnits } from "../../_jobs/change-settings.ts";
import { JobError, runningJobs, startJob } from "../../_jobs/job-registry.ts";
import { previewBands } from "../../_jobs/preview-bands.ts";
import { reassessDay } from "../../_jobs/reassess-day.ts";
import { actingViewer } from "../acting.ts";
import { type Begun, notBegun } from "../asking/begun.ts";
import { readSettingsFields, type SettingsFields, settingsFieldsSchema } from "./settings-form.ts";
import { isTimeZone } from "./time-zones.ts";

/** What a person asks for: the fields that were changed, and the version of the settings that the person saw. */
export interface AskedSettings {
  readonly changed: Partial<SettingsFields>;
  readonly version: number;
}

/** The fields that a person changed, read beside the settings of the version that the person saw. */
async function read({
  changed: given,
  version,
}: AskedSettings): Promise<{ readonly patch: Partial<Settings> } | { readonly refused: Begun }> {
  const fields = settingsFieldsSchema.partial().safeParse(given);
  if (!fields.success) {
    return {
      refused: { ...notBegun, problem: "The form is not understood. Load the page again; nothing was changed." },
    };
  }
  const store = await appStore();
  const now = await settingsVersion(store);
  if (now !== version) {
    const [last] = await settingChanges(store, { limit: 1 });
    return { refused: { ...notBegun, meanwhile: last?.by ?? "Somebody" } };
  }
  // A key that was left out of the object is one that was not changed.
  const changed = Object.fromEntries(Object.entries(fields.data).filter(([, value]) => value !== undefined));
  const result = readSettingsFields(changed, await readSettings(store), { isTimeZone });
  if (!result.ok) return { refused: { ...notBegun, problems: result.problems } };
  if (Object.keys(result.patch).length === 0) {
    return { refused: { ...notBegun, problem: "Nothing is changed: every field says what is in force." } };
  }
  return { patch: result.patch };
}

/** Begins to look at what the changed fields would do; settings that no band hangs on are saved at once. */
export async function previewSettings(asked: AskedSettings): Promise<Begun> {
  const wish = await read(asked);
  if ("refused" in wish) return wish.refused;
  if (!touchesUnits(wish.patch)) return saveSettings(asked);
  const act = await actingViewer();
  if (typeof act === "string") return { ...notBegun, problem: act };
  const store = await appStore();
  return {
    ...notBegun,
    job: startJob("preview", (control) => previewBands(store, { settings: wish.patch }, act, control)),
  };
}

/** Begins to put the changed fields in force. */
export async function saveSettings(asked: AskedSettings): Promise<Begun> {
  const wish = await read(asked);
  if ("refused" in wish) return wish.refused;
  const act = await actingViewer();
  if (typeof act === "string") return { ...notBegun, problem: act };
  const store = await appStore();
  const job = startJob("settings", async (control) => {
    const done = await changeSettingsAndReassess(store, wish.patch, { ...act, version: asked.version }, control);
    if (done.meanwhile === null) return done.reassessed;
    throw new JobError(`${done.meanwhile.by} changed the settings meanwhile, so nothing was changed now. Save again.`);
  });
  return { ...notBegun, kind: "save", job };
}

/** Assesses the units that a cancelled or ended change left behind. */
export async function assessTheRest(): Promise<Begun> {
  const act = await actingViewer();
  if (typeof act === "string") return { ...notBegun, problem: act };
  const running = runningJobs().find(({ kind }) => kind === "day" || kind === "settings");
  const store = await appStore();
  const job = running?.id ?? startJob("day", (control) => reassessDay(store, act, control));
  revalidatePath("/settings");
  return { ...notBegun, kind: "save", job };
}
