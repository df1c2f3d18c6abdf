import { expect, it } from "vitest";
import { recentActivity, recordActivity } from "@/db/activity.ts";
import { changeDepot, depotHistory, depotPeriods, depotSetups, saysNothing } from "@/db/depots.ts";
import { engineOf, enginePage, enginesOf, replaceEngines } from "@/db/engines.ts";
import { assessedVersion, markAssessed } from "@/db/meta.ts";
import { poolOf, poolsInForce, putPoolsInForce } from "@/db/pools.ts";
import { clearDerived } from "@/db/rebuild.ts";
import {
  changeSettings,
  readSettings,
  saveSettings,
  settingChanges,
  settingHistory,
  settingsVersion,
} from "@/db/settings.ts";
import { blankDepotSetup } from "@/lib/schema/depot.ts";
import { settingsSchema } from "@/lib/schema/settings.ts";
import { at, by, temporaryStore } from "./made-up.ts";
import { report } from "./made-up-report.ts";

const later = "2026-07-01T08:00:00.000Z";

it("settings have defaults, and a history of who changed what", async () => {
  const store = await temporaryStore();
  expect(await readSettings(store)).toEqual(settingsSchema.parse({}));
  await changeSettings(store, { asOf: "2026-06-30", horizonYears: 4 }, { by, at });
  await changeSettings(store, { asOf: null, horizonYears: 4 }, { by: "B. Clerk", at: later });
  expect(await readSettings(store)).toEqual(settingsSchema.parse({ horizonYears: 4 }));
  expect((await settingHistory(store, "asOf")).map((row) => [row.value, row.by, row.at])).toEqual([
    [null, "B. Clerk", later],
    ["2026-06-30", by, at],
  ]);
  // The one that did not change has no second entry.
  expect(await settingHistory(store, "horizonYears")).toHaveLength(1);
  expect((await recentActivity(store, { limit: 1 }))[0]).toMatchObject({
    action: "setting-changed",
    about: "asOf",
    detail: { before: "2026-06-30", after: null },
  });
});

it("a setting out of range changes nothing", async () => {
  const store = await temporaryStore();
  await expect(changeSettings(store, { fleetName: "X", planProbability: 3 }, { by, at })).rejects.toThrow();
  expect(await readSettings(store)).toEqual(settingsSchema.parse({}));
});

it("activity is told newest first", async () => {
  const store = await temporaryStore();
  for (const action of ["a", "b", "c"]) await recordActivity(store, { at, by, action, about: action });
  expect((await recentActivity(store, { limit: 2 })).map((row) => row.action)).toEqual(["c", "b"]);
  expect((await recentActivity(store, { limit: 2, about: "a" })).map((row) => row.action)).toEqual(["a"]);
});

it("pools in force are exactly those put; one of the same fingerprint stays that version", async () => {
  const store = await temporaryStore();
  const pool = (engineModel: string, fingerprint: string) =>
    ({ engineModel, measure: "leak-down", meterUnit: "h", fingerprint, rateMean: 0.1 + 0.2 }) as const;
  await putPoolsInForce(store, [pool("b", "1"), pool("a", "1")], { at });
  await putPoolsInForce(store, [pool("a", "2"), pool("b", "1")], { at: later });
  expect(await poolsInForce(store)).toEqual([pool("a", "2"), pool("b", "1")]);
  const rows = await store.q.select().from(store.pools);
  expect(rows.map((row) => [row.engineModel, row.fingerprint, row.inForce, row.madeAt, row.replacedAt])).toEqual([
    ["b", "1", true, at, null],
    ["a", "1", false, at, later],
    ["a", "2", true, later, null],
  ]);
  await clearDerived(store, { at: later });
  expect(await poolsInForce(store)).toEqual([]);
  expect((await poolOf(store, "2"))?.pool).toEqual(pool("a", "2"));
  expect(await poolOf(store, "3")).toBeNull();
});

it("engines of units given are replaced with their fittings, others stay", async () => {
  const store = await temporaryStore();
  const stay = (unit: string, fromDate: string | null = null) => ({
    unit,
    fromDate,
    toDate: null,
    fromX: 0,
    toX: null,
  });
  const engine = (name: string, ...fittings: ReturnType<typeof stay>[]) => ({
    engine: name,
    serial: name,
    engineModel: "petrol-4-a",
    meterUnit: "h" as const,
    fittings,
  });
  const old = [engine("S1", stay("A"), stay("B", "2025-01-01")), engine("S2", stay("B")), engine("S3", stay("C"))];
  await replaceEngines(store, { units: ["A", "B", "C"], engines: old });
  expect(await enginesOf(store, "B")).toEqual([old[1], old[0]]);
  const fresh = [engine("S1", stay("A")), engine("S4", stay("B"))];
  await replaceEngines(store, { units: ["A", "B"], engines: fresh });
  expect(await enginesOf(store, "B")).toEqual([fresh[1]]);
  expect(await enginesOf(store, "A")).toEqual([fresh[0]]);
  expect(await enginesOf(store, "C")).toEqual([old[2]]);

  expect(await engineOf(store, "S3")).toEqual({ ...old[2], report: null });
  expect(await engineOf(store, "S9")).toBeNull();
  const out = { ...engine("S3", stay("C")), report: report("S3") };
  await replaceEngines(store, { units: ["C"], engines: [out] });
  expect(await engineOf(store, "S3")).toEqual(out);
  expect(await enginesOf(store, "C")).toEqual([engine("S3", stay("C"))]);
});

it("engines are listed by their numbers, a page at a time, and found by number, model or unit", async () => {
  const store = await temporaryStore();
  const engines = ["E-2", "E-10", "E-1", "X_7"].map((name) => ({
    engine: name,
    serial: name,
    engineModel: name === "X_7" ? "diesel-6-a" : "petrol-4-a",
    meterUnit: "h" as const,
    fittings: [{ unit: `V-${name}`, fromDate: null, toDate: null, fromX: 0, toX: null }],
  }));
  await replaceEngines(store, { units: [], engines });
  const found = async (search: string, page = 1, pageSize = 9) => {
    const { rows, total } = await enginePage(store, { search, page, pageSize });
    return [rows.map((row) => row.engine), total];
  };
  expect(await found("")).toEqual([["E-1", "E-2", "E-10", "X_7"], 4]);
  expect(await found("", 2, 3)).toEqual([["X_7"], 4]);
  expect(await found("petrol v-e-1")).toEqual([["E-1", "E-10"], 2]);
  expect(await found("x_")).toEqual([["X_7"], 1]);
  expect(await found("DIESEL")).toEqual([["X_7"], 1]);
  expect(await found("e_1")).toEqual([[], 0]);
});

const period = (kind: "peak" | "closed", firstDate: string) => ({
  kind,
  repeat: "once" as const,
  firstDate,
  lastDate: "2026-12-31",
  remarks: null,
});
const weeks = { kind: "closed", repeat: "yearly", firstWeek: 46, lastWeek: 8, remarks: "snow" } as const;

it("what is told of a depot is replaced as a whole, and every change of it stays written", async () => {
  const store = await temporaryStore();
  const first = { ...blankDepotSetup, periods: [period("closed", "2026-12-21"), period("peak", "2026-07-06")] };
  const second = {
    bays: 2,
    technicians: 3,
    productiveHoursPerDay: 5.5,
    daysPerWeek: 6,
    builders: 2,
    labourRate: 61.5,
    periods: [period("peak", "2026-07-13")],
    retired: true,
  };
  expect(await changeDepot(store, "North", first, { by, at, after: null })).toBeNull();
  const south = { ...blankDepotSetup, periods: [period("peak", "2026-01-05"), weeks] };
  expect(await changeDepot(store, "South", south, { by, at, after: null })).toBeNull();
  const seen = (await depotSetups(store)).get("North")?.id ?? null;
  // Within the same millisecond: the order of the changes is not told by their instants.
  expect(await changeDepot(store, "North", second, { by: "B. Clerk", at, after: seen })).toBeNull();
  const given = { by, at, endedAt: null, id: expect.any(Number) };
  expect(await depotPeriods(store)).toEqual([
    { ...period("peak", "2026-07-13"), ...given, by: "B. Clerk", depot: "North" },
    { ...period("peak", "2026-01-05"), ...given, depot: "South" },
    { ...weeks, ...given, depot: "South" },
  ]);
  expect((await depotHistory(store, "North")).map((change) => [change.by, change.setup])).toEqual([
    ["B. Clerk", second],
    [by, first],
  ]);
  expect([...(await depotSetups(store))].map(([depot, { setup }]) => [depot, setup])).toEqual([
    ["North", second],
    ["South", south],
  ]);
});

it("who saved a depot meanwhile is told, and nothing is written over it", async () => {
  const store = await temporaryStore();
  const setup = { ...blankDepotSetup, bays: 1 };
  await changeDepot(store, "North", setup, { by, at, after: null });
  const late = { by: "B. Clerk", at: later };
  expect(await changeDepot(store, "North", { ...setup, bays: 2 }, { ...late, after: null })).toEqual({ by, at });
  const [only, ...others] = await depotHistory(store, "North");
  expect([only?.setup, others]).toEqual([setup, []]);
  expect(await changeDepot(store, "North", blankDepotSetup, { ...late, after: only?.id ?? null })).toBeNull();
  const [last] = await depotHistory(store, "North");
  expect(last !== undefined && saysNothing(last)).toBe(true);
});

it("settings saved by two people who saw the same ones: the second is told of the first", async () => {
  const store = await temporaryStore();
  expect(await settingsVersion(store)).toBe(0);
  expect(await saveSettings(store, { leadTimeMonths: 6 }, { by, at, version: 0 })).toBeNull();
  const late = { by: "B. Clerk", at: later };
  expect(await saveSettings(store, { fleetName: "X" }, { ...late, version: 0 })).toEqual({ by, at });
  expect(await readSettings(store)).toEqual(settingsSchema.parse({ leadTimeMonths: 6 }));
  const version = await settingsVersion(store);
  expect(await saveSettings(store, { fleetName: "X", leadTimeMonths: 12 }, { ...late, version })).toBeNull();
  expect((await settingChanges(store, { limit: 2 })).map((row) => [row.name, row.before, row.after, row.by])).toEqual([
    ["leadTimeMonths", 6, 12, "B. Clerk"],
    ["fleetName", "", "X", "B. Clerk"],
  ]);
});

it("chances for plan and watch that stand in the wrong order are not kept", async () => {
  const store = await temporaryStore();
  await expect(changeSettings(store, { watchProbability: 0.4 }, { by, at })).rejects.toThrow(/at least that for watch/);
  expect(await readSettings(store)).toEqual(settingsSchema.parse({}));
});

it("reports count as not up to date once a setting has changed that they hang on", async () => {
  const store = await temporaryStore();
  await markAssessed(store, 3, { whole: true });
  await changeSettings(store, { fleetName: "X", timeZone: "Europe/Vienna" }, { by, at });
  expect(await assessedVersion(store)).toBe(3);
  await changeSettings(store, { testIntervalDays: 365 }, { by, at });
  expect(await assessedVersion(store)).toBeLessThan(0);
});
