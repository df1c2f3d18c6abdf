import { describe, expect, test } from "vitest";
import { asFleetPools, keptPools } from "@/app/_jobs/kept-pools.ts";
import { rebuild } from "@/app/_jobs/rebuild.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { assessmentHistory, unitNames, unitReport } from "@/db/assessments.ts";
import { fleetFacts } from "@/db/facts.ts";
import { poolOf } from "@/db/pools.ts";
import { readSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { seededRandom } from "@/demo-data/random.ts";
import { assessUnit } from "@/lib/assess.ts";
import { addDays } from "@/lib/calendar.ts";
import { fitFleet } from "@/lib/comparison/instrument-biases.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import { act, csv, everything, modelsFile, newStore, source, take } from "./made-up-files.ts";

const gauges = { V: "gauge G-7", W: "gauge G-8" } as const;
const random = seededRandom(5);
const testRows = (unit: string, date: string, meter: number, compression: number): string[] =>
  [1, 2, 3, 4].map((cylinder) => {
    const value = Math.round(compression + random.normal(0, 8));
    const gauge = gauges[unit[0] as keyof typeof gauges];
    return `${unit},petrol-4-a,${date},${meter},h,compression-dry,${cylinder},${value},kPa,,${gauge},`;
  });

/** Two kinds of eight units: of one the gauge reads 9 % low on every unit from 2025 on, of the other it reads as ever. */
const rows = ["V", "W"].flatMap((kind) =>
  Array.from({ length: 8 }, (_, u) =>
    Array.from({ length: 8 }, (_, t) => {
      const date = addDays("2022-10-05", 182 * t + random.whole(0, 20));
      const compression = (kind === "V" && date >= "2025" ? 0.91 : 1) * (1180 - 3 * t + random.normal(0, 8));
      return testRows(`${kind}-${101 + u}`, date, 400 + 300 * t, compression);
    }).flat(),
  ).flat(),
);
async function gaugeStore(): Promise<Store> {
  const store = await newStore();
  await take(store, [modelsFile, source("tests.csv", csv(rows))]);
  return store;
}

const biases = async (store: Store) => asFleetPools(await keptPools(store)).biases ?? [];
const doubtsOf = async (store: Store, unit: string) =>
  (await unitReport(store, unit))?.tests.flatMap(({ doubts }) => doubts) ?? [];

describe("a gauge that reads low on every unit", () => {
  test("is kept with the pools, and reaches each unit's own tests in the import that shows it", async () => {
    const store = await gaugeStore();
    expect(await biases(store)).toMatchObject([{ name: "gauge G-7", measure: "compression-dry", engines: 8 }]);
    for (const unit of await unitNames(store)) {
      const told = (await doubtsOf(store, unit)).filter((words) => words.startsWith("gauge G-7 has read about"));
      expect(told).toHaveLength(unit.startsWith("V") ? 3 : 0);
      const [last] = await assessmentHistory(store, unit, 1);
      for (const pool of last?.assessment.pools ?? []) expect(await poolOf(store, pool)).not.toBeNull();
    }
  });

  test("is told as the command tells it that keeps nothing", async () => {
    const store = await gaugeStore();
    const settings = await readSettings(store);
    const asOf = "2026-06-30";
    const index = indexFleet(await fleetFacts(store), { asOf });
    const pools = fitFleet(index, asOf);
    expect(await biases(store)).toEqual(pools.biases);
    for (const unit of index.units) {
      const { pools: _, ...told } = assessUnit(index, unit, { asOf, settings, pools }).assessment;
      const { pools: __, ...kept } = (await unitReport(store, unit.unit))?.assessment ?? {};
      expect(kept).toEqual(told);
    }
  });

  test("one unit's next test costs that unit's work alone, and counts as those before", async () => {
    const store = await gaugeStore();
    const others = async () =>
      Promise.all(["V-102", "V-105"].map(async (unit) => (await assessmentHistory(store, unit, 9)).length));
    const before = await others();
    const id = await take(store, [source("one.csv", csv(testRows("V-101", "2026-06-20", 2900, 1065)))]);
    expect((await doubtsOf(store, "V-101")).filter((words) => words.startsWith("gauge G-7"))).toHaveLength(4);
    expect(await others()).toEqual(before);
    await undoImport(store, id, act);
  });

  test("a rebuild finds the same", async () => {
    const store = await gaugeStore();
    const before = JSON.stringify(await everything(store));
    await rebuild(store, act);
    expect(JSON.stringify(await everything(store))).toBe(before);
  });
});
