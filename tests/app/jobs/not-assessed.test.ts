import { eq } from "drizzle-orm";
import { expect, it } from "vitest";
import { commitImport } from "@/app/_jobs/commit-import.ts";
import { leftOutAfter } from "@/app/_jobs/guarded.ts";
import { rebuild } from "@/app/_jobs/rebuild.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { unitReport } from "@/db/assessments.ts";
import { importIssues } from "@/db/imports.ts";
import type { Store } from "@/db/store.ts";
import type { EngineModel } from "@/lib/schema/engine-model.ts";
import { act, csv, history, modelsFile, newStore, source } from "./made-up-files.ts";

const says = expect.stringMatching(/^the unit N-2 could not be assessed: ./);

const odd = {
  id: "odd-4",
  cylinders: 4,
  neighbours: [[1, 2]],
  leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30 },
};
const oddFile = source("odd.json", JSON.stringify({ schemaVersion: 1, engineModels: [odd] }));

/** No intake takes a model without neighbours for one of null; a mistake of an earlier version may have left it. */
const withNeighbours = (store: Store, neighbours: unknown) =>
  store.tx(async (q) => {
    const { engineModelVersions: table } = store;
    const [row] = await q.select().from(table).where(eq(table.engineModel, odd.id));
    const model = { ...row?.model, neighbours } as EngineModel;
    await q.update(table).set({ model }).where(eq(table.engineModel, odd.id));
  });

it("goes on with the other units where one cannot be assessed, names it, and keeps that with the import", async () => {
  const store = await newStore();
  const rows = ["N-1", "N-2", "N-3"].flatMap((unit) =>
    history(unit).map((row) => (unit === "N-2" ? row.replace("petrol-4-a", odd.id) : row)),
  );
  const { id } = await stageImport(store, [modelsFile, oddFile, source("a.csv", csv(rows))], act);
  await withNeighbours(store, null);
  const told: string[] = [];
  const onNotAssessed = (problem: { readonly words: string }) => told.push(problem.words);
  const outcome = await commitImport(store, id, { ...act, takeChanges: false }, { onNotAssessed });
  expect(outcome).toMatchObject({ ok: true, value: { units: 2, notAssessed: [says] } });
  expect(told).toEqual([says]);
  const reports = await Promise.all(["N-1", "N-2", "N-3"].map((unit) => unitReport(store, unit)));
  expect(reports.map((report) => report?.assessment.unit)).toEqual(["N-1", undefined, "N-3"]);
  const { issues } = await importIssues(store, id, { offset: 0, limit: 10, severity: "warning" });
  expect(issues.map((issue) => issue.words)).toEqual(told);

  await withNeighbours(store, odd.neighbours);
  expect(await rebuild(store, act)).toMatchObject({ units: 3, notAssessed: [] });
  expect(await unitReport(store, "N-2")).not.toBeNull();
  await withNeighbours(store, null);
  expect(await rebuild(store, act)).toMatchObject({ units: 2, notAssessed: [says] });
  expect(await unitReport(store, "N-2")).toBeNull();
});

it("names none that a later pass could assess, and those that only a later pass could not", () => {
  const problem = (unit: string | null, units: readonly string[], words: string) => ({
    unit,
    units,
    words,
    cause: null,
  });
  const first = [
    problem("N-1", ["N-1"], "N-1, first"),
    problem("N-2", ["N-2"], "N-2, first"),
    problem(null, ["N-1", "N-3"], "an engine of N-1 and N-3"),
  ];
  const again = { done: new Set(["N-1", "N-4"]), notAssessed: [problem("N-4", ["N-4"], "N-4, again")] };
  const besides = { done: new Set(["N-3"]), notAssessed: [] };
  const words = (...passes: Parameters<typeof leftOutAfter>[1][]) => leftOutAfter(first, ...passes).map((p) => p.words);
  expect(words(again)).toEqual(["N-2, first", "an engine of N-1 and N-3", "N-4, again"]);
  expect(words(again, besides)).toEqual(["N-2, first", "N-4, again"]);
});
