import { describe, expect, it } from "vitest";
import { commitImport } from "@/app/_jobs/commit-import.ts";
import type { ImportSource } from "@/app/_jobs/import-source.ts";
import { importErrorWords } from "@/app/_jobs/import-words.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { changedRows } from "@/db/changed-rows.ts";
import { fleetFacts } from "@/db/facts.ts";
import { importIssues } from "@/db/imports.ts";
import type { Store } from "@/db/store.ts";
import { act, csv, history, line, newStore, source, take } from "./made-up-files.ts";

/** Rows are judged beside changes that a person may decline: then only what holds without them may count. */

const leakDown = { watchPercent: 10, planPercent: 20, limitPercent: 30 };
const models = (cylinders: number, six = 6) =>
  source(
    "models.json",
    JSON.stringify({
      schemaVersion: 1,
      engineModels: [
        { id: "petrol-4-a", cylinders, leakDown },
        { id: "petrol-6-a", cylinders: six, leakDown },
      ],
    }),
  );
const units = (model: string) => source("units.csv", `unit,engine_model,meter_unit\nC,${model},h\n`);
const tests = (meter: number, cylinders: number) =>
  source(
    "tests.csv",
    csv(
      Array.from({ length: cylinders }, (_, i) =>
        line({ unit: "C", date: "2026-05-01", meter, cylinder: i + 1, value: 9 }).replace("petrol-4-a", ""),
      ),
    ),
  );

const cylindersOf = async (store: Store) =>
  (await fleetFacts(store)).tests
    .filter((test) => test.date === "2026-05-01")
    .flatMap((test) => test.readings.map((reading) => reading.cylinder));
const wordsOf = async (store: Store, id: string) =>
  (await importIssues(store, id, { offset: 0, limit: 100 })).issues.map((issue) => `${issue.severity}: ${issue.words}`);

/** Stages files, and commits them with and without their changes, each into a store of its own. */
async function bothWays(before: readonly ImportSource[], files: readonly ImportSource[]) {
  const [taken, declined] = [await newStore(), await newStore()];
  for (const store of [taken, declined]) await take(store, before);
  const { newRows, changedRows: changed, refusedRows } = await stageImport(taken, files, act);
  await take(taken, files);
  await take(declined, files, { takeChanges: false });
  return { counts: { newRows, changed, refusedRows }, taken, declined };
}

describe("readings of cylinders that only a change gives a unit", () => {
  it("come with the change of its engine model, and not without", async () => {
    const before = [models(4), units("petrol-4-a"), source("a.csv", csv(history("C")))];
    const { counts, taken, declined } = await bothWays(before, [units("petrol-6-a"), tests(4000, 6)]);
    expect(counts).toEqual({ newRows: 4, changed: 3, refusedRows: 0 });
    expect(await cylindersOf(declined)).toEqual([1, 2, 3, 4]);
    expect(await cylindersOf(taken)).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it("come with another description of its engine model, and not without", async () => {
    const before = [models(4), units("petrol-4-a")];
    const { counts, taken, declined } = await bothWays(before, [models(6), tests(4000, 6)]);
    expect(counts).toEqual({ newRows: 4, changed: 3, refusedRows: 0 });
    expect(await cylindersOf(declined)).toEqual([1, 2, 3, 4]);
    expect(await cylindersOf(taken)).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it("are new where the unit was never listed: its first list is no change", async () => {
    const store = await newStore();
    await take(store, [models(4), source("a.csv", csv(history("C")))]);
    const { newRows, changedRows: changed } = await stageImport(store, [units("petrol-6-a"), tests(4000, 6)], act);
    expect({ newRows, changed }).toEqual({ newRows: 7, changed: 0 });
  });

  it("are shown with what changes", async () => {
    const store = await newStore();
    await take(store, [models(4), units("petrol-4-a")]);
    const { id } = await stageImport(store, [units("petrol-6-a"), tests(4000, 6)], act);
    const { things, total } = await changedRows(store, id, { offset: 0, limit: 10 });
    expect(total).toBe(2);
    expect(things[0]?.changes.filter((cell) => cell.column === "value")).toEqual([
      { column: "value", cylinder: 5, before: null, after: 9 },
      { column: "value", cylinder: 6, before: null, after: 9 },
    ]);
  });
});

describe("rows at a meter that only a correction lets them have", () => {
  const meters = (meter: number) => source("m.csv", `unit,reading_date,meter,meter_reset\nC,2026-04-01,${meter},\n`);
  it("come with the correction, and not without", async () => {
    const repair = source("r.csv", "unit,repair_date,meter,scope\nC,2026-05-02,9200,top-end\n");
    const before = [models(4), units("petrol-4-a"), meters(90_000)];
    const { counts, taken, declined } = await bothWays(before, [meters(9000), tests(9100, 4), repair]);
    expect(counts).toEqual({ newRows: 0, changed: 6, refusedRows: 0 });
    expect(await fleetFacts(declined)).toMatchObject({ tests: [], repairs: [], meterReadings: [{ meter: 90_000 }] });
    expect(await cylindersOf(taken)).toEqual([1, 2, 3, 4]);
    expect((await fleetFacts(taken)).repairs).toHaveLength(1);
  });

  it.each([
    ["repair", "unit,repair_date,meter,scope\nC,2026-04-01,90000,top-end\n"],
    ["check", "unit,check_date,meter,check,result,cylinder\nC,2026-04-01,90000,borescope,clear,1\n"],
  ])("are not held against the value of a %s that they correct", async (_what, slip) => {
    const store = await newStore();
    await take(store, [models(4), units("petrol-4-a"), source("x.csv", slip)]);
    const files = [source("x.csv", slip.replace("90000", "9000")), tests(9100, 4)];
    const { changedRows: changed, refusedRows, id } = await stageImport(store, files, act);
    expect({ changed, refusedRows }).toEqual({ changed: 5, refusedRows: 0 });
    expect((await commitImport(store, id, { ...act, takeChanges: true })).ok).toBe(true);
    expect(await cylindersOf(store)).toEqual([1, 2, 3, 4]);
  });
});

describe("known readings beyond the cylinders of their unit's engine", () => {
  const before = [models(4), units("petrol-6-a"), tests(4000, 6)];
  const lost = 'known readings of the unit "C" lie beyond cylinder 4, the last one of the engine';

  it("are warned of where the list gives the unit a smaller engine", async () => {
    const store = await newStore();
    await take(store, before);
    const { id, warnedRows } = await stageImport(store, [units("petrol-4-a")], act);
    expect(warnedRows).toBe(1);
    expect(await wordsOf(store, id)).toEqual([expect.stringContaining(`line 2, engine_model: ${lost} petrol-4-a`)]);
  });

  it("are warned of where the model is described with fewer cylinders", async () => {
    const store = await newStore();
    await take(store, before);
    const { id, warnedRows } = await stageImport(store, [models(4, 4)], act);
    expect(warnedRows).toBe(1);
    expect(await wordsOf(store, id)).toEqual([expect.stringContaining(`warning: ${lost} petrol-6-a`)]);
  });
});

describe("rows that were judged before something else was committed", () => {
  const first = line({ unit: "X", date: "2026-01-10", meter: 100, cylinder: 1, value: 9 });

  it.each([
    ["another meter unit", first.replace("2026-01-10", "2026-02-10").replace(",h,", ",km,"), "keeps its meter in h"],
    ["a meter that runs backwards", first.replace(/2026-01-10,100/, "2026-02-10,90"), "is lower than 100 h"],
  ])("are not committed where they no longer hold: %s", async (_what, second, why) => {
    const store = await newStore();
    await take(store, [models(4)]);
    const a = await stageImport(store, [source("a.csv", csv([first]))], act);
    const b = await stageImport(store, [source("b.csv", csv([second]))], act);
    expect([a.newRows, b.newRows, b.refusedRows]).toEqual([1, 1, 0]);
    expect((await commitImport(store, a.id, { ...act, takeChanges: true })).ok).toBe(true);
    for (const takeChanges of [true, false]) {
      const outcome = await commitImport(store, b.id, { ...act, takeChanges });
      expect(outcome).toMatchObject({ ok: false, error: { code: "no-longer-holds", importId: b.id } });
      expect(outcome.ok || importErrorWords(outcome.error)).toContain(why);
    }
    expect((await fleetFacts(store)).tests).toHaveLength(1);
  });

  it("are committed where they hold, whatever units the other import told of", async () => {
    const store = await newStore();
    await take(store, [models(4)]);
    const a = await stageImport(store, [source("a.csv", csv([first]))], act);
    const b = await stageImport(
      store,
      [source("b.csv", csv([...history("Y"), first.replace("2026-01-10", "2026-02-10")]))],
      act,
    );
    for (const { id } of [a, b]) expect((await commitImport(store, id, { ...act, takeChanges: false })).ok).toBe(true);
    expect((await fleetFacts(store, { units: ["X"] })).tests).toHaveLength(2);
  });

  it("are not committed where their engine model was undone", async () => {
    const store = await newStore();
    const described = await take(store, [models(4)]);
    const { id } = await stageImport(store, [source("a.csv", csv([first]))], act);
    expect((await undoImport(store, described, act)).ok).toBe(true);
    const outcome = await commitImport(store, id, { ...act, takeChanges: true });
    expect(outcome.ok || importErrorWords(outcome.error)).toContain('engine model "petrol-4-a" is not known');
  });
});
