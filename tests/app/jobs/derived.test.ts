import { eq } from "drizzle-orm";
import { describe, expect, it } from "vitest";
import { commitImport } from "@/app/_jobs/commit-import.ts";
import { loadDemo } from "@/app/_jobs/demo.ts";
import { demoAlong, readDemoHouse, tellDemoDepots } from "@/app/_jobs/demo-house.ts";
import { reassessDay } from "@/app/_jobs/reassess-day.ts";
import { rebuild } from "@/app/_jobs/rebuild.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { assessmentHistory, unitNames, unitReport } from "@/db/assessments.ts";
import { changeDepot, depotHistory, depotPeriods, depotSetups } from "@/db/depots.ts";
import { engineOf, enginesOf } from "@/db/engines.ts";
import { countFacts } from "@/db/fleet-known.ts";
import { commitImport as commitAlone } from "@/db/import-state.ts";
import { listImports } from "@/db/imports.ts";
import { poolOf } from "@/db/pools.ts";
import { changeSettings, readSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { changeWorkshop, workshopTold } from "@/db/workshop.ts";
import { blankDepotSetup } from "@/lib/schema/depot.ts";
import { reportFormat } from "@/lib/schema/report.ts";
import { workshopSchema } from "@/lib/schema/workshop.ts";
import { demoStore } from "./demo-store.ts";
import { act, csv, demoFolder, everything, history, modelsFile, newStore, now, source, take } from "./made-up-files.ts";

const bytes = (value: unknown) => JSON.stringify(value);
const later = (days: number) => new Date(now.getTime() + days * 86_400_000);

describe("the demo fleet", () => {
  it("goes through the intake once, is told for its own date, and is rebuilt to the same bytes", async () => {
    const store = await newStore();
    const loaded = await loadDemo(store, demoFolder, now);
    expect(loaded?.counts).toMatchObject({ knownRows: 0, changedRows: 0 });
    const { asOf, fleetName } = await readSettings(store);
    expect(asOf).toBe("2026-08-31");
    expect(fleetName).not.toBe("");
    const before = await everything(store);
    expect(before.reports.length).toBe((await countFacts(store)).units);
    expect(new Set(before.reports.map((report) => report?.asOf))).toEqual(new Set([asOf]));
    expect((await listImports(store)).map((row) => row.by)).toEqual(["demo"]);

    await rebuild(store, { by: "A", now: later(400) });
    expect(bytes(await everything(store))).toBe(bytes(before));

    expect(await loadDemo(store, demoFolder, later(1))).toBeNull();
    expect(bytes(await everything(store))).toBe(bytes(before));
  });

  it("keeps an engine that is in no unit with its tests, as it stood when it was taken out", async () => {
    const store = await demoStore();
    const engines = await enginesOf(store, "H-305");
    expect(engines.map(({ serial, fittings }) => [serial, fittings.map(({ unit }) => unit)])).toEqual([
      ["QD6-4327", ["H-305"]],
      ["QD6-4315", ["H-302", "H-305"]],
    ]);
    const [core, fitted] = await Promise.all(engines.map(({ engine }) => engineOf(store, engine)));
    expect(fitted?.report).toBeNull();
    expect(core?.fittings[0]?.toDate).toBe("2025-03-11");
    expect(core?.report?.xNow).toBe(core?.fittings[0]?.toX);
    const { status, tests, charts, use } = core?.report ?? {};
    expect([status, use?.ahead]).toEqual(["stopped", null]);
    expect(tests?.length).toBeGreaterThan(3);
    expect(tests?.every(({ unit, date }) => unit === "H-305" && date < "2025-03-11")).toBe(true);
    expect(charts?.map(({ measure }) => measure)).toContain("leak-down");
  });

  it("takes its date and its name with it when it is undone; what a person set since stays", async () => {
    const store = await demoStore();
    await changeSettings(store, { fleetName: "Harbour Works" }, { by: "A", at: now.toISOString() });
    const highcol = (await depotSetups(store)).get("Highcol");
    expect(highcol?.setup).toEqual({
      bays: 1,
      technicians: 2,
      productiveHoursPerDay: 6,
      daysPerWeek: null,
      builders: 1,
      labourRate: 62,
      periods: [{ kind: "closed", repeat: "yearly", firstWeek: 46, lastWeek: 8, remarks: null }],
      retired: false,
    });
    const own = { ...blankDepotSetup, bays: 3 };
    await changeDepot(store, "Midfell", own, {
      by: "A",
      at: now.toISOString(),
      after: (await depotSetups(store)).get("Midfell")?.id ?? null,
    });
    const model = { id: "own-4", cylinders: 4, leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30 } };
    const models = source("own.json", bytes({ schemaVersion: 1, engineModels: [model] }));
    const rows = history("N-1").map((row) => row.replace("petrol-4-a", "own-4"));
    await take(store, [models, source("own.csv", csv(rows))]);
    const [demo] = (await listImports(store)).filter((row) => row.by === "demo");
    const undone = await undoImport(store, demo?.id ?? "", { by: "A", now });
    expect(undone.ok).toBe(true);
    expect(await readSettings(store)).toMatchObject({ asOf: null, fleetName: "Harbour Works" });
    expect([...(await depotSetups(store))].map(([depot, { setup }]) => [depot, setup])).toEqual([
      ["Highcol", blankDepotSetup],
      ["Lowmarsh", blankDepotSetup],
      ["Midfell", own],
    ]);
    expect(await depotPeriods(store)).toEqual([]);
    expect(await workshopTold(store)).toMatchObject({ by: "A", workshop: workshopSchema.parse({}) });
    const { reports } = await everything(store);
    expect(reports.map((report) => [report?.assessment.unit, report?.asOf])).toEqual([
      ["N-1", now.toISOString().slice(0, 10)],
    ]);
  });

  it("from a version without them, its depots are given their bays and weeks, and it its prices, once", async () => {
    const [old, fresh] = [await demoStore(), await demoStore()];
    const told = async (store: Store) => [...(await depotSetups(store))].map(([depot, { setup }]) => [depot, setup]);
    const expected = await told(fresh);
    for (const table of [old.depotPeriods, old.depotChanges]) await old.tx(async (q) => void (await q.delete(table)));
    expect(await told(old)).toEqual([]);
    await tellDemoDepots(old, demoFolder, { now });
    expect(await told(old)).toEqual(expected);
    await tellDemoDepots(old, demoFolder, { now });
    expect(await depotHistory(old, "Lowmarsh")).toHaveLength(1);

    // One that brought the depots, but no prices, nor who builds bottom ends there; a person changed one of them.
    const prices = (await workshopTold(fresh)).workshop;
    await old.tx(async (q) => {
      await q.delete(old.workshopChanges);
      await q.update(old.depotChanges).set({ builders: null, labourRate: null });
    });
    const own = { ...blankDepotSetup, bays: 3 };
    const [{ id: after } = { id: 0 }] = await depotHistory(old, "Midfell");
    await changeDepot(old, "Midfell", own, { by: "A", at: now.toISOString(), after });
    await tellDemoDepots(old, demoFolder, { now });
    expect(await told(old)).toEqual(expected.map(([depot, setup]) => [depot, depot === "Midfell" ? own : setup]));
    expect(await workshopTold(old)).toMatchObject({ by: "demo", workshop: prices });
    expect(prices.labourRate).toBe(58);
    const typed = await workshopTold(old);
    await changeWorkshop(old, { ...prices, labourRate: 61 }, { by: "A", at: now.toISOString(), after: typed.id });
    await tellDemoDepots(old, demoFolder, { now });
    expect((await workshopTold(old)).workshop.labourRate).toBe(61);

    const none = await newStore();
    await tellDemoDepots(none, demoFolder, { now });
    expect(await told(none)).toEqual([]);
  });

  it("brings its prices, also where they were taken back before, but not over what a person told", async () => {
    const store = await newStore();
    const house = await readDemoHouse(demoFolder);
    const brings = async () => (await demoAlong(store, house)).workshop?.labourRate;
    const tell = async (labourRate: number, by: string) => {
      const { id, workshop } = await workshopTold(store);
      const told = { ...workshop, labourRate };
      expect(await changeWorkshop(store, told, { by, at: now.toISOString(), after: id })).toBeNull();
    };
    expect(await brings()).toBe(58);
    await tell(61, "A");
    expect(await brings()).toBeUndefined();
    await tell(60, "A");
    expect(await brings()).toBe(58);
    await tell(58, "demo");
    expect(await brings()).toBe(58);
  });

  const isIn = "The import is in; its assessments are made good at the next start.";
  it.each([
    ["reading", "ended"],
    ["checking", "ended"],
    ["committing", isIn],
    ["assessing", isIn],
  ])("ended while %s, it says what stands, and comes whole the next time", async (phase, says) => {
    const [whole, ended] = [await demoStore(), await newStore()];
    const controller = new AbortController();
    const onProgress = (progress: { phase: string }) => {
      if (progress.phase === phase) controller.abort(new Error("ended"));
    };
    await expect(loadDemo(ended, demoFolder, now, { signal: controller.signal, onProgress })).rejects.toThrow(says);
    await loadDemo(ended, demoFolder, now);
    expect(bytes(await everything(ended))).toBe(bytes(await everything(whole)));
    expect((await listImports(ended)).map((row) => row.state)).toEqual(["committed"]);
  });

  it.each(["reading", "comparing"])("ended while %s, it leaves neither its date nor anything staged", async (phase) => {
    const store = await newStore();
    const before = await readSettings(store);
    const controller = new AbortController();
    const onProgress = (progress: { phase: string }) => {
      if (progress.phase === phase) controller.abort(new Error("ended"));
    };
    const loading = loadDemo(store, demoFolder, now, { signal: controller.signal, onProgress });
    await expect(loading).rejects.toThrow("ended");
    expect(await readSettings(store)).toEqual(before);
    expect((await depotSetups(store)).size).toBe(0);
    expect(await listImports(store)).toEqual([]);
  });

  it("leaves nothing staged where somebody else's import comes in between", async () => {
    const store = await newStore();
    const { id } = await stageImport(store, [modelsFile], act);
    let other: Promise<unknown> | undefined;
    const onProgress = (progress: { phase: string }) => {
      if (progress.phase === "committing") {
        other = commitAlone(store, id, { by: act.by, at: now.toISOString(), takeChanges: false });
      }
    };
    await expect(loadDemo(store, demoFolder, now, { onProgress })).rejects.toThrow("The demo fleet was not loaded.");
    await other;
    expect((await listImports(store)).map(({ by, state }) => [by, state])).toEqual([[act.by, "committed"]]);
    expect((await readSettings(store)).asOf).toBeNull();
  });
});

describe("a commit", () => {
  it("assesses the units that it touches and those that share an engine with them, and no others", async () => {
    const store = await newStore();
    const first = [...history("B-1", { serial: "E-1" }), ...history("B-2"), ...history("B-3"), ...history("B-4")];
    await take(store, [modelsFile, source("a.csv", csv(first))]);
    const own = history("B-5", { tests: 1, serial: "E-9" });
    const moved = history("B-5", { tests: 1, serial: "E-1" }).map((row) => row.replace("2024-02-10", "2026-04-01"));
    const id = await take(store, [source("b.csv", csv([...own, ...moved]))]);
    const made = async (unit: string) => (await assessmentHistory(store, unit, 9)).map((row) => row.importId === id);
    expect([await made("B-1"), await made("B-5")]).toEqual([[true, false], [true]]);
    expect([await made("B-2"), await made("B-3")]).toEqual([[false], [false]]);
    const engine = (await enginesOf(store, "B-5")).find(({ serial }) => serial === "E-1");
    expect(engine?.fittings.map((stay) => stay.unit)).toEqual(["B-1", "B-5"]);
  });

  it("fits the pools anew, and assesses all units of the kind, when a fifth more tests have come", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", csv(["B-1", "B-2", "B-3"].flatMap((unit) => history(unit))))]);
    const poolsOf = async (unit: string) => (await unitReport(store, unit))?.assessment.pools;
    const before = await poolsOf("B-1");
    await take(store, [source("b.csv", csv(history("B-4", { tests: 2 })))]);
    expect(await poolsOf("B-1")).toEqual(before);
    expect(await poolsOf("B-4")).toEqual(before);
    await take(store, [source("c.csv", csv(history("B-5", { tests: 1 })))]);
    const after = await poolsOf("B-1");
    expect(after).not.toEqual(before);
    expect(await poolsOf("B-2")).toEqual(after);
    for (const fingerprint of [...(before ?? []), ...(after ?? [])]) {
      expect((await poolOf(store, fingerprint))?.fingerprint).toBe(fingerprint);
    }
  });

  it("takes changes only where asked to", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", csv(history("B-1")))]);
    const before = await everything(store);
    const corrected = source("b.csv", csv(history("B-1", { from: 9 })));
    await take(store, [corrected], { takeChanges: false });
    expect(await everything(store)).toEqual(before);
    await take(store, [corrected], { takeChanges: true });
    expect((await everything(store)).facts.tests[0]?.readings[0]?.value).toBe(
      (before.facts.tests[0]?.readings[0]?.value ?? 0) + 4,
    );
  });

  it("of an import that was discarded or committed already is refused, and changes nothing", async () => {
    const store = await newStore();
    const id = await take(store, [modelsFile, source("a.csv", csv(history("B-1")))]);
    const again = await commitImport(store, id, { ...act, takeChanges: true });
    expect(again).toEqual({ ok: false, error: { code: "wrong-state", importId: id, state: "committed" } });
    expect(await undoImport(store, "no-such", act)).toMatchObject({ ok: false, error: { code: "unknown-import" } });
  });
});

describe("telling the day", () => {
  it("moves every report to today under the pools in force, once", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", csv([...history("B-1"), ...history("B-2")]))]);
    const before = await unitReport(store, "B-1");
    expect(before?.asOf).toBe("2026-06-30");
    expect(await reassessDay(store, act)).toBeNull();
    expect(await reassessDay(store, { ...act, now: later(3) })).toEqual({ units: 2, fittedKinds: 0, notAssessed: [] });
    const after = await unitReport(store, "B-1");
    expect(after?.asOf).toBe("2026-07-03");
    expect(after?.assessment.pools).toEqual(before?.assessment.pools);
    expect(await reassessDay(store, { ...act, now: later(3) })).toBeNull();
    expect((await assessmentHistory(store, "B-1", 9)).map((row) => row.because)).toEqual(["import"]);
  });

  it("makes good what a process did not come to that was ended after a commit", async () => {
    const [whole, ended] = [await newStore(), await newStore()];
    const files = [modelsFile, source("a.csv", csv([...history("B-1"), ...history("B-2")]))];
    await take(whole, files);
    const { id } = await stageImport(ended, files, act);
    await commitAlone(ended, id, { by: "A", at: now.toISOString(), takeChanges: true });
    expect(await unitNames(ended)).toEqual([]);
    expect(await reassessDay(ended, act)).toMatchObject({ units: 2 });
    expect(bytes(await everything(ended))).toBe(bytes(await everything(whole)));
    expect(await reassessDay(ended, act)).toBeNull();
  });
});

describe("reports that an older program kept", () => {
  it("are made again at the next start, and only then", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", csv([...history("B-1"), ...history("B-2")]))]);
    const before = await unitReport(store, "B-1");
    if (before === null) throw new Error("the import was assessed");
    const { howSure: _, ...older } = before;
    const { reports } = store;
    await store.tx((q) =>
      q
        .update(reports)
        .set({ format: reportFormat - 1, report: older as typeof before })
        .where(eq(reports.unit, "B-1")),
    );
    expect((await unitReport(store, "B-1"))?.howSure).toBeUndefined();
    expect(await reassessDay(store, act)).toMatchObject({ units: 2 });
    expect(await unitReport(store, "B-1")).toEqual(before);
    expect(await reassessDay(store, act)).toBeNull();
  });
});

describe("an undo", () => {
  it("takes units of which nothing else is known off the fleet", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", csv(history("B-1")))]);
    const id = await take(store, [source("b.csv", csv(history("B-2")))]);
    expect(await unitNames(store)).toEqual(["B-1", "B-2"]);
    await undoImport(store, id, act);
    expect(await unitNames(store)).toEqual(["B-1"]);
  });
});
