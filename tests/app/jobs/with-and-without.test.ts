import { eq } from "drizzle-orm";
import { expect, it } from "vitest";
import { type RepairForecast, withAndWithout } from "@/app/_jobs/with-and-without.ts";
import { unitReport } from "@/db/assessments.ts";
import type { Store } from "@/db/store.ts";
import type { EngineModel } from "@/lib/schema/engine-model.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import { csv, history, line, modelsFile, newStore, source, take } from "./made-up-files.ts";

/** B-1 with a last test that was made on a cold engine and reads far worse; B-2 as a sister. */
async function fleet() {
  const store = await newStore();
  const cold = [1, 2, 3, 4].map((cylinder) =>
    line({ unit: "B-1", date: "2026-05-10", meter: 3400, cylinder, value: 24 + cylinder }),
  );
  const rows = [...history("B-1"), ...cold, ...history("B-2", { tests: 6, rate: 2 })];
  const [head = "", ...lines] = csv(rows).trimEnd().split("\n");
  const told = [`${head},warm`, ...lines.map((row) => `${row},${cold.includes(row) ? "no" : ""}`)].join("\n");
  await take(store, [modelsFile, source("tests.csv", `${told}\n`)]);
  return { store, report: (await unitReport(store, "B-1")) as UnitReport };
}

const chance = ({ bottomEnd }: RepairForecast) => bottomEnd.probabilityWithinYear ?? 0;

it("tells a unit's windows with its doubtful tests in full and without, with those told of it in between", async () => {
  const { store, report } = await fleet();
  expect(report.doubtfulTests).toBe(1);
  const both = await withAndWithout(store, report);
  if (both?.ok !== true) throw new Error("B-1 cannot be assessed");
  const { repairs } = report.assessment;
  // All cylinders are worse in the doubtful test: the more it counts, the sooner the limit is met.
  const chances = [both.value["in-full"], repairs, both.value["left-out"]].map(chance);
  expect(chances).toEqual(chances.toSorted((a, b) => b - a));
  expect(new Set(chances).size).toBe(3);
  // Nothing is kept of it.
  expect(await unitReport(store, "B-1")).toEqual(report);
});

it("says why a unit cannot be assessed, and of one that is gone that nothing is known", async () => {
  const { store, report } = await fleet();
  const gone = { ...report, assessment: { ...report.assessment, unit: "B-9" } };
  expect(await withAndWithout(store, gone)).toBeNull();
  await withoutNeighbours(store, report.model.id);
  const both = await withAndWithout(store, report);
  expect(both).toMatchObject({
    ok: false,
    error: { words: expect.stringMatching(/^the unit B-1 could not be assessed: ./) },
  });
});

/** No intake takes such a model; a mistake of an earlier version may have left it. */
const withoutNeighbours = (store: Store, id: string) =>
  store.tx(async (q) => {
    const { engineModelVersions: table } = store;
    const [row] = await q.select().from(table).where(eq(table.engineModel, id));
    const model = { ...row?.model, neighbours: null } as unknown as EngineModel;
    await q.update(table).set({ model }).where(eq(table.engineModel, id));
  });
