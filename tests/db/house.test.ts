import { expect, it } from "vitest";
import { recentActivity, recordActivity } from "@/db/activity.ts";
import { changeDepotPeriods, depotPeriods } from "@/db/depots.ts";
import { enginesOf, replaceEngines } from "@/db/engines.ts";
import { poolOf, poolsInForce, putPoolsInForce } from "@/db/pools.ts";
import { clearDerived } from "@/db/rebuild.ts";
import { changeSettings, readSettings, settingHistory } from "@/db/settings.ts";
import { settingsSchema } from "@/lib/schema/settings.ts";
import { at, by, temporaryStore } from "./made-up.ts";

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
});

it("a depot's periods are replaced as a whole, and what was in force before stays written", async () => {
  const store = await temporaryStore();
  const period = (kind: "peak" | "closed", firstDate: string) => ({
    kind,
    repeat: "once" as const,
    firstDate,
    lastDate: "2026-12-31",
    remarks: null,
  });
  const weeks = { kind: "closed", repeat: "yearly", firstWeek: 46, lastWeek: 8, remarks: "snow" } as const;
  await changeDepotPeriods(store, "North", [period("closed", "2026-12-21"), period("peak", "2026-07-06")], { by, at });
  await changeDepotPeriods(store, "South", [period("peak", "2026-01-05"), weeks], { by, at });
  await changeDepotPeriods(store, "North", [period("peak", "2026-07-13")], { by, at: later });
  const given = { by, endedAt: null };
  expect(await depotPeriods(store)).toEqual([
    { ...period("peak", "2026-07-13"), ...given, depot: "North", at: later, id: expect.any(Number) },
    { ...period("peak", "2026-01-05"), ...given, depot: "South", at, id: expect.any(Number) },
    { ...weeks, ...given, depot: "South", at, id: expect.any(Number) },
  ]);
  expect(await store.q.select().from(store.depotPeriods)).toHaveLength(5);
});
