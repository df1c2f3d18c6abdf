import { readFile } from "node:fs/promises";
import path from "node:path";
import { z } from "zod";
import { changeDepot, depotSetups, saysNothing } from "../../db/depots.ts";
import { listImports } from "../../db/imports.ts";
import { changeSettings, settingHistory } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { blankDepotSetup, type DepotSetup } from "../../lib/schema/depot.ts";
import { type Settings, settingsSchema } from "../../lib/schema/settings.ts";
import { type Act, doerOf } from "./progress.ts";

/** Who the demo fleet's rows, settings and calendars are from. */
export const demoName = "demo";

/** What of the demo's settings are the app's. */
const demoSettings = settingsSchema.pick({ fleetName: true, timeZone: true, asOf: true });

const weeks = z.array(z.tuple([z.number().int(), z.number().int()]));
const demoFile = demoSettings.extend({
  depots: z.record(
    z.string(),
    z.object({
      bays: z.number(),
      technicians: z.number(),
      productiveHoursPerDay: z.number(),
      peakWeeks: weeks,
      closedWeeks: weeks,
    }),
  ),
});

/** What the demo fleet brings beside its facts: settings, and what its depots have and when. */
export interface DemoHouse {
  readonly settings: z.infer<typeof demoSettings>;
  readonly depots: Readonly<Record<string, DepotSetup>>;
}

/** Reads the demo's settings file. */
export async function readDemoHouse(folder: string): Promise<DemoHouse> {
  const file = demoFile.parse(JSON.parse(await readFile(path.join(folder, "settings.json"), "utf8")));
  const depots = Object.entries(file.depots).map(([depot, { peakWeeks, closedWeeks, ...capacity }]) => {
    const yearly = (kind: "peak" | "closed") => (span: readonly [number, number]) => ({
      kind,
      repeat: "yearly" as const,
      firstWeek: span[0],
      lastWeek: span[1],
      remarks: null,
    });
    const periods = [...peakWeeks.map(yearly("peak")), ...closedWeeks.map(yearly("closed"))];
    return [depot, { ...blankDepotSetup, ...capacity, periods }] as const;
  });
  return { settings: demoSettings.parse(file), depots: Object.fromEntries(depots) };
}

/**
 * Gives the demo's depots their bays and weeks in a store that has the demo fleet from a version which did not bring
 * them. Nothing where anybody ever told anything of a depot.
 */
export async function tellDemoDepots(store: Store, folder: string, { now }: Pick<Act, "now">): Promise<void> {
  if ((await depotSetups(store)).size > 0) return;
  if (!(await listImports(store)).some(({ by, state }) => by === demoName && state === "committed")) return;
  const { depots } = await readDemoHouse(folder);
  for (const [depot, setup] of Object.entries(depots)) {
    await changeDepot(store, depot, setup, { by: demoName, at: now.toISOString(), after: null });
  }
}

/**
 * Takes back what the demo brought beside its facts, where nobody has changed it since: settings go back to their
 * defaults (the date most of all: one's own fleet is told for today), depots to what is told of none. True: some settings
 * did.
 */
export async function withdrawDemoHouse(store: Store, act: Act): Promise<boolean> {
  for (const [depot, change] of await depotSetups(store)) {
    if (change.by !== demoName || saysNothing(change)) continue;
    await changeDepot(store, depot, blankDepotSetup, { ...doerOf(act), after: change.id });
  }
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
