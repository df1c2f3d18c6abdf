import fc from "fast-check";
import { expect, it } from "vitest";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { unitNames } from "@/db/assessments.ts";
import { enginesOf } from "@/db/engines.ts";
import { act, csv, everything, history, modelsFile, newStore, source, take } from "./made-up-files.ts";

/** Rows of six units; two of them shared an engine, one after the other. */
const rows = [
  ...history("B-1", { serial: "E-1" }).map((row) => row.replace(/202(\d)-/, (_, y) => `202${Number(y) - 4}-`)),
  ...history("B-2", { tests: 3, rate: 3 }),
  ...history("B-3", { tests: 1 }),
  ...history("B-4", { tests: 5, from: 15 }),
  ...history("B-5", { tests: 2 }),
  ...history("B-6", { tests: 1, serial: "E-2" }).map((row) => row.replace("2024-02-10", "2021-02-10")),
  ...history("B-6", { tests: 4, rate: 0, serial: "E-1" }),
];
const repairs = source("repairs.csv", "unit,repair_date,meter,scope,cylinders\nB-4,2025-03-01,1900,top-end,all\n");

const halves = fc.array(fc.boolean(), { minLength: rows.length, maxLength: rows.length });

it("importing the same files again brings nothing, whatever the order of their rows", async () => {
  await fc.assert(
    fc.asyncProperty(fc.shuffledSubarray(rows, { minLength: rows.length }), async (shuffled) => {
      const store = await newStore();
      await take(store, [modelsFile, source("a.csv", csv(rows)), repairs]);
      const again = [modelsFile, source("b.csv", csv(shuffled)), repairs];
      const { newRows, changedRows, knownRows, refusedRows } = await stageImport(store, again, act);
      expect({ newRows, changedRows, refusedRows }).toEqual({ newRows: 0, changedRows: 0, refusedRows: 0 });
      expect(knownRows).toBe(rows.length + 2);
    }),
    { numRuns: 5 },
  );
});

it("an import that is undone might as well never have happened: the same facts, reports and engines", async () => {
  await fc.assert(
    fc.asyncProperty(halves, async (isFirst) => {
      const store = await newStore();
      const first = rows.filter((_, i) => isFirst[i]);
      await take(store, [modelsFile, source("first.csv", csv(first))]);
      const engines = async () => Promise.all((await unitNames(store)).map((unit) => enginesOf(store, unit)));
      const before = { ...(await everything(store)), engines: await engines() };
      const second = await take(store, [source("second.csv", csv(rows.filter((_, i) => !isFirst[i]))), repairs]);
      expect(await everything(store)).not.toEqual({ facts: before.facts, reports: before.reports });
      expect((await undoImport(store, second, act)).ok).toBe(true);
      expect({ ...(await everything(store)), engines: await engines() }).toEqual(before);
    }),
    { numRuns: 8 },
  );
});

it("an import that is undone takes nothing of a later file that repeats its rows", async () => {
  await fc.assert(
    fc.asyncProperty(halves, fc.boolean(), async (isFirst, takeChanges) => {
      const first = source("first.csv", csv(rows.filter((_, i) => isFirst[i])));
      const cumulative = [modelsFile, source("all.csv", csv(rows)), repairs];
      const store = await newStore();
      const id = await take(store, [modelsFile, first]);
      await take(store, cumulative, { takeChanges });
      expect((await undoImport(store, id, act)).ok).toBe(true);
      const other = await newStore();
      await take(other, cumulative);
      expect(await everything(store)).toEqual(await everything(other));
    }),
    { numRuns: 5 },
  );
});
