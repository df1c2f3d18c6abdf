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
import type { FieldProblems } from "../depots/depot-form.ts";
import { readSettingsFields, type SettingsFields, settingsFieldsSchema } from "./settings-form.ts";
import { isTimeZone } from "./time-zones.ts";

export interface SettingsOutcome {
  /** The job that was begun; null: none, and `problem`, `problems` or `meanwhile` say why. */
  readonly job: string | null;
  /** `preview`: looks at what would change; `settings`: puts it in force. */
  readonly kind: "preview" | "settings";
  readonly problem: string | null;
  readonly problems: FieldProblems;
  /** Who changed settings since the person saw them, and the version that they are of now. */
  readonly meanwhile: { readonly by: string; readonly version: number } | null;
}

const nothing: SettingsOutcome = { job: null, kind: "preview", problem: null, problems: {}, meanwhile: null };

/** The fields that a person changed, read beside the settings of the version that the person saw. */
async function read(
  given: Partial<SettingsFields>,
  version: number,
): Promise<{ readonly patch: Partial<Settings> } | { readonly refused: SettingsOutcome }> {
  const fields = settingsFieldsSchema.partial().safeParse(given);
  if (!fields.success) {
    return {
      refused: { ...nothing, problem: "The form is not understood. Load the page again; nothing was changed." },
    };
  }
  const store = await appStore();
  const now = await settingsVersion(store);
  if (now !== version) {
    const [last] = await settingChanges(store, { limit: 1 });
    return { refused: { ...nothing, meanwhile: { by: last?.by ?? "Somebody", version: now } } };
  }
  // A key that was left out of the object is one that was not changed.
  const changed = Object.fromEntries(Object.entries(fields.data).filter(([, value]) => value !== undefined));
  const result = readSettingsFields(changed, await readSettings(store), { isTimeZone });
  if (!result.ok) return { refused: { ...nothing, problems: result.problems } };
  if (Object.keys(result.patch).length === 0) {
    return { refused: { ...nothing, problem: "Nothing is changed: every field says what is in force." } };
  }
  return { patch: result.patch };
}

/** Begins to look at what the changed fields would do; settings that no band hangs on are saved at once. */
export async function previewSettings(given: Partial<SettingsFields>, version: number): Promise<SettingsOutcome> {
  const asked = await read(given, version);
  if ("refused" in asked) return asked.refused;
  if (!touchesUnits(asked.patch)) return saveSettings(given, version);
  const act = await actingViewer();
  if (typeof act === "string") return { ...nothing, problem: act };
  const store = await appStore();
  return {
    ...nothing,
    job: startJob("preview", (control) => previewBands(store, { settings: asked.patch }, act, control)),
  };
}

/** Begins to put the changed fields in force. */
export async function saveSettings(given: Partial<SettingsFields>, version: number): Promise<SettingsOutcome> {
  const asked = await read(given, version);
  if ("refused" in asked) return asked.refused;
  const act = await actingViewer();
  if (typeof act === "string") return { ...nothing, problem: act };
  const store = await appStore();
  const job = startJob("settings", async (control) => {
    const done = await changeSettingsAndReassess(store, asked.patch, { ...act, version }, control);
    if (done.meanwhile === null) return done.reassessed;
    throw new JobError(`${done.meanwhile.by} changed the settings meanwhile, so nothing was changed now. Save again.`);
  });
  return { ...nothing, kind: "settings", job };
}

/** Assesses the units that a cancelled or ended change left behind. */
export async function assessTheRest(): Promise<SettingsOutcome> {
  const act = await actingViewer();
  if (typeof act === "string") return { ...nothing, problem: act };
  const running = runningJobs().find(({ kind }) => kind === "day" || kind === "settings");
  const store = await appStore();
  const job = running?.id ?? startJob("day", (control) => reassessDay(store, act, control));
  revalidatePath("/settings");
  return { ...nothing, kind: "settings", job };
}
