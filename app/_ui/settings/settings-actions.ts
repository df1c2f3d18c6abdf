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
import { type Begun, notBegun, notUnderstood } from "../asking/begun.ts";
import { decimalSignOf } from "../figures.ts";
import { viewerFormats } from "../viewer.ts";
import { readsOf } from "./setting-words.ts";
import { type AskedSettings, askedSettingsSchema, readSettingsFields } from "./settings-form.ts";
import { isTimeZone } from "./time-zones.ts";

interface Wish {
  readonly patch: Partial<Settings>;
  readonly version: number;
  readonly reads: Begun["reads"];
}

/** The fields that a person changed, read beside the settings of the version that the person saw. */
async function read(asked: AskedSettings): Promise<Wish | { readonly refused: Begun }> {
  const given = askedSettingsSchema.safeParse(asked);
  if (!given.success) return { refused: { ...notBegun, problem: notUnderstood } };
  const { version } = given.data;
  const store = await appStore();
  const now = await settingsVersion(store);
  if (now !== version) {
    const [last] = await settingChanges(store, { limit: 1 });
    return { refused: { ...notBegun, meanwhile: last?.by ?? "Somebody" } };
  }
  // A key that was left out of the object is one that was not changed.
  const changed = Object.fromEntries(Object.entries(given.data.changed).filter(([, value]) => value !== undefined));
  const current = await readSettings(store);
  const f = await viewerFormats();
  const sign = decimalSignOf(f.preferences.numbers);
  const result = readSettingsFields(changed, current, { isTimeZone, sign });
  if (!result.ok) return { refused: { ...notBegun, problems: result.problems } };
  if (Object.keys(result.patch).length === 0) {
    return { refused: { ...notBegun, problem: "Nothing is changed: every field says what is in force." } };
  }
  return { patch: result.patch, version, reads: readsOf(f, current, result.patch) };
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
    reads: wish.reads,
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
    const done = await changeSettingsAndReassess(store, wish.patch, { ...act, version: wish.version }, control);
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
