import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { FactsChange } from "@/app/_jobs/facts-change.ts";
import { previewBands } from "@/app/_jobs/preview-bands.ts";
import { reassessDay } from "@/app/_jobs/reassess-day.ts";
import { unitNames } from "@/db/assessments.ts";
import { keptBands } from "@/db/kept-bands.ts";
import { factsVersion } from "@/db/meta.ts";
import { changeSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { type EngineModel, engineModelSchema } from "@/lib/schema/engine-model.ts";
import { act, csv, everything, history, line, modelsFile, newStore, source, take } from "./made-up-files.ts";

/** Six units of one model on two depots, two of them joined by an engine, and one of another model. */
const rows = [
  ...history("B-1", { serial: "E-1" }).map((row) => row.replace(/202(\d)-/, (_, y) => `202${Number(y) - 4}-`)),
  ...history("B-2", { tests: 3, rate: 3 }),
  ...history("B-3", { tests: 1 }),
  ...history("B-4", { tests: 5, from: 15 }),
  ...history("B-6", { tests: 4, rate: 0, serial: "E-1" }),
  ...[0, 1, 2, 3].flatMap((t) => [1, 2, 3, 4].map((cylinder) => compression(t, cylinder))),
  ...history("N-1", { tests: 4, rate: 2 }).map((row) => row.replace("petrol-4-a", "other-4")),
];
/** A dry compression of B-4, which falls from test to test. */
function compression(t: number, cylinder: number): string {
  const value = 820 - 15 * t - cylinder;
  return line({
    unit: "B-4",
    date: `202${2 + t}-05-10`,
    meter: 600 + 250 * t,
    cylinder,
    value,
    test: "compression-dry",
  });
}
const units = source("units.csv", "unit,engine_model,depot\nB-2,petrol-4-a,Highcol\nB-4,petrol-4-a,Highcol\n");
const depots = source("depots.csv", "depot,altitude_m\nHighcol,1850\n");
const other = modelsJson("other.json", [
  { id: "other-4", cylinders: 4, leakDown: { watchPercent: 8, planPercent: 14, limitPercent: 25 } },
]);

function modelsJson(name: string, engineModels: readonly unknown[]) {
  return source(name, JSON.stringify({ schemaVersion: 1, engineModels }));
}

async function fleet(): Promise<Store> {
  const store = await newStore();
  await take(store, [modelsFile, other, source("tests.csv", csv(rows)), units, depots]);
  return store;
}

const told = async (store: Store) => new Map(await keptBands(store, await unitNames(store)));

/** What is told of the units that differ before and after, as a preview tells it. */
async function moved(store: Store, before: Awaited<ReturnType<typeof told>>) {
  return [...(await told(store))]
    .map(([unit, after]) => ({ unit, before: before.get(unit) ?? null, after }))
    .filter((one) => JSON.stringify(one.before) !== JSON.stringify(one.after))
    .sort((a, b) => (a.unit < b.unit ? -1 : 1));
}

const strict = { cylinders: 4, leakDown: { watchPercent: 1, planPercent: 2, limitPercent: 3 } };
const limits = fc
  .tuple(fc.integer({ min: 2, max: 30 }), fc.integer({ min: 0, max: 20 }), fc.integer({ min: 0, max: 30 }))
  .map(([watchPercent, more, most]) => ({
    watchPercent,
    planPercent: watchPercent + more,
    limitPercent: watchPercent + more + most,
  }));
const model: fc.Arbitrary<EngineModel> = fc
  .record({
    leakDown: fc.tuple(limits, fc.option(limits, { nil: undefined })).map(([all, valves]) => ({ ...all, valves })),
    compression: fc.option(fc.constant({ newKpa: 1250, minimumKpa: 900 }), { nil: undefined }),
    neighbours: fc.constantFrom([], [[1, 2]]),
  })
  .map((given) => engineModelSchema.parse({ id: "petrol-4-a", cylinders: 4, ...given }));

describe("a preview", () => {
  it("tells of any change of limits what saving it then gives, and keeps nothing", async () => {
    await fc.assert(
      fc.asyncProperty(model, async (changed) => {
        const store = await fleet();
        const before = await told(store);
        const all = JSON.stringify(await everything(store));
        const preview = await previewBands(store, { models: [changed] }, act);
        expect(JSON.stringify(await everything(store))).toBe(all);
        await take(store, [modelsJson("changed.json", [changed])]);
        expect(preview.changes).toEqual(await moved(store, before));
        expect([preview.units, preview.notAssessed]).toEqual([5, []]);
      }),
      { numRuns: 6 },
    );
  });

  it.each<[string, FactsChange]>([
    ["nothing", { models: [] }],
    ["a depot that stays where it is", { depots: [{ depot: "Highcol", altitudeM: 1850 }] }],
    ["a depot without an altitude", { depots: [{ depot: "Highcol", altitudeM: null }] }],
  ])("of %s names no unit", async (_what, change) => {
    expect((await previewBands(await fleet(), change, act)).changes).toEqual([]);
  });

  it("tells of new settings what their saving gives, of all units", async () => {
    const store = await fleet();
    const before = await told(store);
    const settings = { planProbability: 0.05, watchProbability: 0.01, horizonYears: 2 };
    const preview = await previewBands(store, { settings }, act);
    await changeSettings(store, settings, { by: act.by, at: act.now.toISOString() });
    await reassessDay(store, act);
    expect(preview.changes.length).toBeGreaterThan(0);
    expect(preview.changes).toEqual(await moved(store, before));
    expect(preview.units).toBe(6);
  });

  it("tells of another as-of date what is told for that date", async () => {
    const store = await fleet();
    const before = await told(store);
    const preview = await previewBands(store, { settings: { asOf: "2025-01-31" } }, act);
    await changeSettings(store, { asOf: "2025-01-31" }, { by: act.by, at: act.now.toISOString() });
    await reassessDay(store, act);
    expect(preview.asOf).toBe("2025-01-31");
    expect(preview.changes.length).toBeGreaterThan(0);
    expect(preview.changes).toEqual(await moved(store, before));
  });

  it("tells of a depot's altitude what saving it gives: of its units alone", async () => {
    const store = await fleet();
    const before = await told(store);
    const preview = await previewBands(store, { depots: [{ depot: "Highcol", altitudeM: 300 }] }, act);
    await take(store, [source("moved.csv", "depot,altitude_m\nHighcol,300\n")]);
    expect(preview.units).toBe(2);
    expect(preview.changes.map(({ unit }) => unit)).toEqual(["B-2"]);
    expect(preview.changes).toEqual(await moved(store, before));
  });

  it("of an engine model that no unit has names none", async () => {
    const fresh = engineModelSchema.parse({ id: "new-4", ...strict });
    const { units: count, changes } = await previewBands(await fleet(), { models: [fresh] }, act);
    expect([count, changes]).toEqual([0, []]);
  });

  it("ends at once where it is cancelled, and leaves the store as it was", async () => {
    const store = await fleet();
    const version = await factsVersion(store, store.q);
    const ended = new AbortController();
    const onProgress = () => ended.abort(new Error("Cancelled."));
    const changed = engineModelSchema.parse({ id: "petrol-4-a", ...strict });
    await expect(previewBands(store, { models: [changed] }, act, { signal: ended.signal, onProgress })).rejects.toThrow(
      "Cancelled.",
    );
    expect(await factsVersion(store, store.q)).toBe(version);
  });
});
