import { expect, it } from "vitest";
import { changeSettingsAndReassess } from "@/app/_jobs/change-settings.ts";
import { reassessDay, whatIsLeft } from "@/app/_jobs/reassess-day.ts";
import { assessmentHistory, unitReport } from "@/db/assessments.ts";
import { readSettings, settingsVersion } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { act, csv, everything, history, modelsFile, newStore, now, source, take } from "./made-up-files.ts";

const bytes = (value: unknown) => JSON.stringify(value);

async function smallFleet(): Promise<Store> {
  const store = await newStore();
  const rows = ["B-1", "B-2", "B-3"].flatMap((unit, i) => history(unit, { from: 5 + 2 * i }));
  await take(store, [modelsFile, source("a.csv", csv(rows))]);
  return store;
}
const because = async (store: Store) => (await assessmentHistory(store, "B-1", 9)).map((row) => row.because);

it("a limit of the settings is in force with all units assessed by it, and can be put back", async () => {
  const store = await smallFleet();
  const before = await everything(store);
  const version = await settingsVersion(store);
  const patch = { leadTimeMonths: 60, watchProbability: 0.02, planProbability: 0.05 };
  const changed = await changeSettingsAndReassess(store, patch, { ...act, version });
  expect(changed).toEqual({ meanwhile: null, reassessed: { units: 3, fittedKinds: 0, notAssessed: [] } });
  expect((await everything(store)).reports).not.toEqual(before.reports);
  expect(await because(store)).toEqual(["settings", "import"]);
  expect(await whatIsLeft(store, now)).toEqual({ isBehind: false, isOtherDay: false });

  const back = { leadTimeMonths: 12, watchProbability: 0.1, planProbability: 0.3 };
  await changeSettingsAndReassess(store, back, { ...act, version: await settingsVersion(store) });
  expect(bytes((await everything(store)).reports)).toBe(bytes(before.reports));
});

it("settings that no unit hangs on assess none; another as-of date assesses all for it", async () => {
  const store = await smallFleet();
  const named = { fleetName: "Harbour Works", timeZone: "Europe/Vienna" };
  const first = await changeSettingsAndReassess(store, named, { ...act, version: await settingsVersion(store) });
  expect(first).toEqual({ meanwhile: null, reassessed: null });
  const dated = { asOf: "2026-01-31" };
  const second = await changeSettingsAndReassess(store, dated, { ...act, version: await settingsVersion(store) });
  expect(second.reassessed?.units).toBe(3);
  expect((await unitReport(store, "B-2"))?.asOf).toBe("2026-01-31");
});

it("a time zone in which it is another day tells the fleet for that day", async () => {
  const store = await smallFleet();
  const evening = { ...act, now: new Date("2026-06-30T20:00:00.000Z"), version: await settingsVersion(store) };
  const changed = await changeSettingsAndReassess(store, { timeZone: "Pacific/Auckland" }, evening);
  expect(changed.reassessed?.units).toBe(3);
  expect((await unitReport(store, "B-1"))?.asOf).toBe("2026-07-01");
  expect(await because(store)).toEqual(["import"]);
});

it("somebody who was quicker is told, and nothing is written", async () => {
  const store = await smallFleet();
  const version = await settingsVersion(store);
  await changeSettingsAndReassess(store, { leadTimeMonths: 6 }, { by: "B. Clerk", now, version });
  const before = await everything(store);
  const late = await changeSettingsAndReassess(store, { leadTimeMonths: 24 }, { ...act, version });
  expect(late).toEqual({ meanwhile: { by: "B. Clerk", at: now.toISOString() }, reassessed: null });
  expect((await readSettings(store)).leadTimeMonths).toBe(6);
  expect(await everything(store)).toEqual(before);
});

it("cancelled on the way, the settings are in force and the next start assesses what is left", async () => {
  const [whole, ended] = [await smallFleet(), await smallFleet()];
  const patch = { leadTimeMonths: 60, planProbability: 0.1 };
  await changeSettingsAndReassess(whole, patch, { ...act, version: await settingsVersion(whole) });
  const controller = new AbortController();
  const onProgress = (progress: { phase: string; units: number }) => {
    if (progress.phase === "assessing") controller.abort(new Error("ended"));
  };
  const version = await settingsVersion(ended);
  const work = changeSettingsAndReassess(ended, patch, { ...act, version }, { signal: controller.signal, onProgress });
  await expect(work).rejects.toThrow(
    "The change of settings is in force; its assessments are made good at the next start.",
  );
  expect(await readSettings(ended)).toEqual(await readSettings(whole));
  expect((await whatIsLeft(ended, now)).isBehind).toBe(true);
  await reassessDay(ended, act);
  expect((await whatIsLeft(ended, now)).isBehind).toBe(false);
  expect(bytes((await everything(ended)).reports)).toBe(bytes((await everything(whole)).reports));
});

it("cancelled before its turn, nothing is changed", async () => {
  const store = await smallFleet();
  const signal = AbortSignal.abort(new Error("ended"));
  const version = await settingsVersion(store);
  const work = changeSettingsAndReassess(store, { leadTimeMonths: 60 }, { ...act, version }, { signal });
  await expect(work).rejects.toThrow("ended");
  expect((await readSettings(store)).leadTimeMonths).toBe(12);
});
