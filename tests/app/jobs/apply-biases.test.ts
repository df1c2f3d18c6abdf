import { describe, expect, test } from "vitest";
import { asFleetPools, keptPools, withBiases } from "@/app/_jobs/kept-pools.ts";
import type { Progress } from "@/app/_jobs/progress.ts";
import { reassess } from "@/app/_jobs/reassess.ts";
import { reassessDay } from "@/app/_jobs/reassess-day.ts";
import { rebuild } from "@/app/_jobs/rebuild.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { assessmentHistory, unitNames, unitReport } from "@/db/assessments.ts";
import { fleetFacts } from "@/db/facts.ts";
import { importOutcome } from "@/db/import-outcome.ts";
import { isBehindFacts } from "@/db/meta.ts";
import { poolOf, putPoolsInForce } from "@/db/pools.ts";
import { readSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { issuedAfterTests } from "@/db/track-record.ts";
import { seededRandom } from "@/demo-data/random.ts";
import { assessUnit } from "@/lib/assess.ts";
import { addDays } from "@/lib/calendar.ts";
import { fitFleet } from "@/lib/comparison/instrument-biases.ts";
import type { InstrumentBias } from "@/lib/schema/comparison.ts";
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

  test("an import that shows it issues each unit once, as the unit is told then", async () => {
    const store = await newStore();
    const early = rows.filter((row) => (row.split(",")[2] ?? "") < "2025");
    const late = rows.filter((row) => (row.split(",")[2] ?? "") >= "2025");
    await take(store, [modelsFile, source("early.csv", csv(early))]);
    expect(await biases(store)).toEqual([]);
    const id = await take(store, [source("late.csv", csv(late))]);
    expect(await biases(store)).toHaveLength(1);
    expect((await importOutcome(store, id, { limit: 99 })).units).toBe(16);
    const units = await unitNames(store);
    const issued = await issuedAfterTests(store, units);
    for (const unit of units) {
      const history = await assessmentHistory(store, unit, 9);
      expect(history.map((row) => row.importId === id)).toEqual([true, false]);
      const { assessment } = (await unitReport(store, unit)) ?? {};
      expect(history[0]?.assessment).toEqual(assessment);
      const told = issued.findLast((row) => row.unit === unit && row.lastTestDate === assessment?.lastTestDate);
      expect(told?.cylinders[0]?.measures).toEqual(assessment?.cylinders[0]?.measures);
    }
  });

  test("ended while units are assessed by it, the next look makes them good", async () => {
    const store = await gaugeStore();
    await putPoolsInForce(
      store,
      (await keptPools(store)).map((pool) => withBiases(pool, [])),
      { at: act.now.toISOString() },
    );
    const ended = new AbortController();
    let begun = 0;
    const onProgress = ({ phase, units }: Progress) => {
      if (phase === "assessing" && units === 0) begun += 1;
      if (begun === 2) ended.abort(new Error("ended"));
    };
    const control = { signal: ended.signal, onProgress };
    await expect(reassess(store, { units: "all", because: "day", pools: "stay" }, act, control)).rejects.toThrow();
    expect(ended.signal.aborted).toBe(true);
    expect(await biases(store)).toHaveLength(1);
    expect(await isBehindFacts(store)).toBe(true);
    await reassessDay(store, act);
    expect(await isBehindFacts(store)).toBe(false);
    for (const unit of await unitNames(store)) {
      const told = (await doubtsOf(store, unit)).filter((words) => words.startsWith("gauge G-7 has read about"));
      expect(told).toHaveLength(unit.startsWith("V") ? 3 : 0);
    }
  });

  test("in several imports what was kept first may stay, near what the command and a rebuild find", async () => {
    const store = await newStore();
    const until = ["2025-09", "2026-03", "2027"];
    for (const [i, end] of until.entries()) {
      const part = rows.filter((row) => {
        const date = row.split(",")[2] ?? "";
        return date >= (until[i - 1] ?? "") && date < end;
      });
      await take(store, [...(i === 0 ? [modelsFile] : []), source(`part-${i}.csv`, csv(part))]);
    }
    const asOf = "2026-06-30";
    const [told, ...others] = fitFleet(indexFleet(await fleetFacts(store), { asOf }), asOf).biases ?? [];
    const isNear = (found: readonly InstrumentBias[]) => {
      expect(others).toEqual([]);
      expect(found).toHaveLength(1);
      expect(found[0]).toMatchObject({ name: told?.name, until: null });
      expect(Math.abs((found[0]?.mean ?? 0) - (told?.mean ?? 0))).toBeLessThanOrEqual(0.2 * Math.abs(told?.mean ?? 0));
      expect(Math.abs((found[0]?.probability ?? 0) - (told?.probability ?? 0))).toBeLessThanOrEqual(0.1);
    };
    isNear(await biases(store));
    await rebuild(store, act);
    isNear(await biases(store));
  });

  test("a rebuild finds the same", async () => {
    const store = await gaugeStore();
    const before = JSON.stringify(await everything(store));
    await rebuild(store, act);
    expect(JSON.stringify(await everything(store))).toBe(before);
  });
});
