import { expect, it } from "vitest";
import { planAnew } from "@/app/_jobs/plan-anew.ts";
import { inThisThread } from "@/app/_jobs/worker/tasks.ts";
import { workshopNow } from "@/app/_jobs/workshop-now.ts";
import { planInForce } from "@/db/plans.ts";
import { changeSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { changeWorkshop, workshopTold } from "@/db/workshop.ts";
import { workshopSchema } from "@/lib/schema/workshop.ts";
import { act, csv, history, modelsFile, newStore, now, source, take } from "./made-up-files.ts";

const priceDate = async (store: Store) => (await workshopNow(store)).workshop.priceDate;

async function tell(store: Store, document: object, at: string): Promise<void> {
  const { id: after } = await workshopTold(store);
  expect(await changeWorkshop(store, workshopSchema.parse(document), { by: "A. First", at, after })).toBeNull();
}

it("prices without a date are those of the day on which they were told last, where the fleet is", async () => {
  const store = await newStore();
  expect(await priceDate(store)).toBeNull();
  await tell(store, { labourRate: 61 }, "2026-03-31T22:30:00.000Z");
  expect(await priceDate(store)).toBe("2026-03-31");
  await changeSettings(store, { timeZone: "Europe/Vienna" }, { by: "A. First", at: now.toISOString() });
  expect(await priceDate(store)).toBe("2026-04-01");
  await tell(store, { labourRate: 62 }, "2026-05-04T10:00:00.000Z");
  expect(await priceDate(store)).toBe("2026-05-04");
  await tell(store, { labourRate: 62, priceDate: "2025-01-01" }, "2026-05-05T10:00:00.000Z");
  expect(await priceDate(store)).toBe("2025-01-01");
});

it("the day of prices stays where something else is saved, and moves with a rate or the currency", async () => {
  const store = await newStore();
  await tell(store, { planWeeks: 60 }, "2026-03-31T10:00:00.000Z");
  await tell(store, { planWeeks: 52, labourGrowthPercent: 5 }, "2026-04-30T10:00:00.000Z");
  expect(await priceDate(store)).toBe("2026-03-31");
  await tell(store, { anyDepot: { labourRate: 70 } }, "2026-05-04T10:00:00.000Z");
  await tell(store, { anyDepot: { labourRate: 70, bays: 3 } }, "2026-05-05T10:00:00.000Z");
  expect(await priceDate(store)).toBe("2026-05-04");
  await tell(store, { currency: "EUR", anyDepot: { labourRate: 70, bays: 3 } }, "2026-06-01T10:00:00.000Z");
  expect(await priceDate(store)).toBe("2026-06-01");
});

it("prices of a fleet that is told for a fixed day are of no later one", async () => {
  const store = await newStore();
  await tell(store, {}, "2026-05-04T10:00:00.000Z");
  await changeSettings(store, { asOf: "2026-02-01" }, { by: "A. First", at: now.toISOString() });
  expect(await priceDate(store)).toBe("2026-02-01");
});

it("prices that nobody touched stay those of their day in plans to come", async () => {
  const store = await newStore();
  await take(store, [modelsFile, source("a.csv", csv(history("B-1")))]);
  await tell(store, { labourRate: 61 }, "2026-05-04T10:00:00.000Z");
  for (const day of ["2026-07-01", "2026-12-31"]) {
    await planAnew(store, { ...act, now: new Date(`${day}T08:00:00.000Z`) }, {}, inThisThread);
    expect((await planInForce(store))?.workshop.priceDate).toBe("2026-05-04");
  }
});
