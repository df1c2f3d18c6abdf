import { describe, expect, it } from "vitest";
import { commitFormImport } from "@/app/_jobs/commit-form-import.ts";
import { previewBands } from "@/app/_jobs/preview-bands.ts";
import { saveModel } from "@/app/_jobs/save-model.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { unitReport } from "@/db/assessments.ts";
import { modelVersions, standingModel, standingModels, unitsByModel } from "@/db/engine-models.ts";
import { fleetFacts } from "@/db/facts.ts";
import { listImports } from "@/db/imports.ts";
import type { Store } from "@/db/store.ts";
import { type EngineModel, engineModelSchema } from "@/lib/schema/engine-model.ts";
import { act, csv, everything, history, modelsFile, newStore, source, take } from "./made-up-files.ts";

async function fleet(): Promise<{ readonly store: Store; readonly seen: EngineModel }> {
  const store = await newStore();
  await take(store, [modelsFile, source("tests.csv", csv([...history("B-1"), ...history("B-2", { from: 16 })]))]);
  return { store, seen: (await standingModel(store, "petrol-4-a")) as EngineModel };
}

const withLimit = (model: EngineModel, limitPercent: number) =>
  engineModelSchema.parse({ ...model, leakDown: { watchPercent: 5, planPercent: limitPercent, limitPercent } });

describe("a model changed on a page", () => {
  it("is a version with who, when and what, moves its units, and goes back with its undo", async () => {
    const { store, seen } = await fleet();
    const before = JSON.stringify(await everything(store));
    const model = withLimit(seen, 6);
    const saved = await saveModel(store, { model, seen }, act);
    expect(saved.units).toBe(2);
    expect((await unitReport(store, "B-2"))?.assessment.band).toBe("past-limit");
    const [newest, first] = await modelVersions(store, "petrol-4-a");
    expect(newest).toMatchObject({ version: 2, model, origin: "form", state: "committed", committedBy: act.by });
    expect(first).toMatchObject({ version: 1, model: seen, origin: "file" });
    expect((await listImports(store)).find(({ id }) => id === saved.import)).toMatchObject({
      origin: "form",
      files: [{ name: "Engine model petrol-4-a", kind: "engine-models", changedRows: 1 }],
    });

    expect((await undoImport(store, saved.import, act)).ok).toBe(true);
    expect(JSON.stringify(await everything(store))).toBe(before);
    expect((await modelVersions(store, "petrol-4-a"))[0]).toMatchObject({ state: "undone", undoneBy: act.by });
  });

  it("takes the place of the whole model: what the form leaves out is not told any more", async () => {
    const { store, seen } = await fleet();
    const { compression, ...model } = seen;
    expect(compression).toBeDefined();
    await saveModel(store, { model, seen }, act);
    expect(await standingModel(store, "petrol-4-a")).toEqual(model);
  });

  it("is refused where somebody else changed it meanwhile, where a new one has its id, and where nothing differs", async () => {
    const { store, seen } = await fleet();
    await saveModel(store, { model: withLimit(seen, 20), seen }, act);
    const before = JSON.stringify(await everything(store));
    await expect(saveModel(store, { model: withLimit(seen, 25), seen }, act)).rejects.toThrow("was changed meanwhile");
    await expect(saveModel(store, { model: seen, seen: null }, act)).rejects.toThrow("petrol-4-a already");
    await expect(saveModel(store, { model: { ...seen, id: "x" }, seen }, act)).rejects.toThrow("taken back meanwhile");
    const now = (await standingModel(store, "petrol-4-a")) as EngineModel;
    await expect(saveModel(store, { model: now, seen: now }, act)).rejects.toThrow("Nothing differs");
    expect(JSON.stringify(await everything(store))).toBe(before);
    expect(await listImports(store)).toHaveLength(2);
  });

  it("of two who saw the same and save at once one is kept, and the other is told of it", async () => {
    const { store, seen } = await fleet();
    const both = await Promise.allSettled(
      [20, 25].map((limit) => saveModel(store, { model: withLimit(seen, limit), seen }, act)),
    );
    expect(both.map(({ status }) => status).sort()).toEqual(["fulfilled", "rejected"]);
    expect(both.flatMap((one) => (one.status === "rejected" ? [String(one.reason)] : [])).join()).toContain(
      "was changed meanwhile",
    );
    expect(await modelVersions(store, "petrol-4-a")).toHaveLength(2);
  });

  it("retired, renamed or with other costs, moves no unit and is listed still", async () => {
    const { store, seen } = await fleet();
    const repairs = { topEnd: { labourHours: 3, parts: 10, downtimeDays: 1, unplannedFactor: 1.5 } };
    const model = engineModelSchema.parse({ ...seen, retired: true, name: "Old one", repairs });
    expect((await previewBands(store, { models: [model] }, act)).changes).toEqual([]);
    await saveModel(store, { model, seen }, act);
    expect((await standingModels(store)).map(({ id, retired }) => [id, retired])).toEqual([["petrol-4-a", true]]);
    expect((await unitsByModel(store)).reduce((sum, { units }) => sum + units, 0)).toBe(2);
    expect((await unitReport(store, "B-1"))?.model.retired).toBe(true);
  });
});

describe("facts of a form", () => {
  it("tell where depots lie, whatever they are called; without an altitude the known one stays", async () => {
    const { store } = await fleet();
    const name = 'High, "old" =col';
    const depots = [{ depot: name, altitudeM: 1850 }];
    await commitFormImport(store, { title: "Depot", told: { depots } }, act);
    await commitFormImport(store, { title: "Depots", told: { depots: [{ depot: name, altitudeM: 1800 }] } }, act);
    expect((await fleetFacts(store)).depots).toMatchObject([{ depot: name, altitudeM: 1800 }]);
    const blank = { title: "Depots", depots: [{ depot: name, altitudeM: null }] };
    await expect(commitFormImport(store, blank, act)).rejects.toThrow("Nothing differs");
  });

  it("that cannot be taken leave nothing behind and say why", async () => {
    const { store } = await fleet();
    const before = (await listImports(store)).length;
    const depots = [{ depot: "Highcol", altitudeM: 90_000 }];
    await expect(commitFormImport(store, { title: "Depot", told: { depots } }, act)).rejects.toThrow(
      "Nothing was kept.",
    );
    expect(await listImports(store)).toHaveLength(before);
  });
});
