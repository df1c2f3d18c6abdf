import { readFile } from "node:fs/promises";
import path from "node:path";
import { isDeepStrictEqual } from "node:util";
import { z } from "zod";
import { changeDepot, type DepotChange, depotSetups, saysNothing } from "../../db/depots.ts";
import type { ComesAlong } from "../../db/import-state.ts";
import { listImports } from "../../db/imports.ts";
import { changeSettings, settingHistory } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { changeWorkshop, workshopTold } from "../../db/workshop.ts";
import { blankDepotSetup, type DepotSetup } from "../../lib/schema/depot.ts";
import { type Settings, settingsSchema } from "../../lib/schema/settings.ts";
import { type Workshop, workshopSchema } from "../../lib/schema/workshop.ts";
import { type Act, doerOf } from "./progress.ts";

/** Who the demo fleet's rows, settings and calendars are from. */
export const demoName = "demo";

/** What of the demo's settings are the app's. */
const demoSettings = settingsSchema.pick({ fleetName: true, timeZone: true, asOf: true });

/** The file of prices and workshops, as `borecast plan --workshop` reads it. */
const workshopFile = "workshop.json";

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

/** What the demo fleet brings beside its facts: settings, what its depots have and when, and prices. */
export interface DemoHouse {
  readonly settings: z.infer<typeof demoSettings>;
  readonly depots: Readonly<Record<string, DepotSetup>>;
  readonly workshop: Workshop;
}

/** Reads the demo's settings file, and that of its prices and workshops. */
export async function readDemoHouse(folder: string): Promise<DemoHouse> {
  const file = demoFile.parse(JSON.parse(await readFile(path.join(folder, "settings.json"), "utf8")));
  const workshop = workshopSchema.parse(JSON.parse(await readFile(path.join(folder, workshopFile), "utf8")));
  const depots = Object.entries(file.depots).map(([depot, { peakWeeks, closedWeeks, ...capacity }]) => {
    const yearly = (kind: "peak" | "closed") => (span: readonly [number, number]) => ({
      kind,
      repeat: "yearly" as const,
      firstWeek: span[0],
      lastWeek: span[1],
      remarks: null,
    });
    const periods = [...peakWeeks.map(yearly("peak")), ...closedWeeks.map(yearly("closed"))];
    // The file of workshops knows who builds bottom ends and what an hour costs; all else stands in both alike.
    const { builders = null, labourRate = null, daysPerWeek = null } = workshop.depots[depot] ?? {};
    return [depot, { ...blankDepotSetup, ...capacity, builders, labourRate, daysPerWeek, periods }] as const;
  });
  return { settings: demoSettings.parse(file), depots: Object.fromEntries(depots), workshop };
}

/** What comes with the demo's rows; prices that a person told already stay, unless they are but the defaults. */
export async function demoAlong(store: Store, { workshop, ...house }: DemoHouse): Promise<ComesAlong> {
  const told = await workshopTold(store);
  const mayBring = told.by === demoName || isDeepStrictEqual(told.workshop, workshopSchema.parse({}));
  return mayBring ? { ...house, workshop } : house;
}

/**
 * Gives a store that has the demo fleet from an earlier version what that did not bring: prices, the demo's depots their
 * bays and weeks, who builds bottom ends there. Nothing that anybody ever told is touched.
 */
export async function tellDemoDepots(store: Store, folder: string, { now }: Pick<Act, "now">): Promise<void> {
  const [setups, told] = [await depotSetups(store), await workshopTold(store)];
  if (setups.size > 0 && told.id > 0) return;
  if (!(await listImports(store)).some(({ by, state }) => by === demoName && state === "committed")) return;
  const { depots, workshop } = await readDemoHouse(folder);
  const doer = { by: demoName, at: now.toISOString() };
  if (told.id === 0) await changeWorkshop(store, workshop, { ...doer, after: 0 });
  for (const [depot, setup] of Object.entries(depots)) {
    const change = setups.get(depot);
    if (setups.size > 0 && !isOfEarlierDemo(change, setup)) continue;
    await changeDepot(store, depot, setup, { ...doer, after: change?.id ?? null });
  }
}

/** Whether a depot stands as an earlier version of the demo brought it. */
function isOfEarlierDemo(change: DepotChange | undefined, { builders, labourRate, daysPerWeek, ...setup }: DepotSetup) {
  const before = { ...setup, builders: null, labourRate: null, daysPerWeek: null };
  return change?.by === demoName && isDeepStrictEqual(change.setup, before);
}

/**
 * Takes back what the demo brought beside its facts, where nobody has changed it since: settings go back to their
 * defaults (the date most of all: one's own fleet is told for today), prices too, depots to what is told of none. True:
 * some settings did.
 */
export async function withdrawDemoHouse(store: Store, act: Act): Promise<boolean> {
  for (const [depot, change] of await depotSetups(store)) {
    if (change.by !== demoName || saysNothing(change)) continue;
    await changeDepot(store, depot, blankDepotSetup, { ...doerOf(act), after: change.id });
  }
  const told = await workshopTold(store);
  if (told.by === demoName) {
    await changeWorkshop(store, workshopSchema.parse({}), { ...doerOf(act), after: told.id });
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
