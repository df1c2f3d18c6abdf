import { beforeAll, describe, expect, it } from "vitest";
import { fleetKinds } from "@/app/_jobs/fleet-kinds.ts";
import { keptCauseCounts } from "@/app/_jobs/kept-causes.ts";
import { keptPools, kindsDue } from "@/app/_jobs/kept-pools.ts";
import { rebuild } from "@/app/_jobs/rebuild.ts";
import { recordFacts } from "@/app/_jobs/record-facts.ts";
import { saveModel } from "@/app/_jobs/save-model.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { toldCalls } from "@/app/_ui/causes/told-calls.ts";
import { unitReport } from "@/db/assessments.ts";
import { standingModel, standingModels } from "@/db/engine-models.ts";
import { stripDownsKept } from "@/db/engines.ts";
import type { Store } from "@/db/store.ts";
import { readEngineModels } from "@/lib/intake/engine-models.ts";
import type { EngineModel } from "@/lib/schema/engine-model.ts";
import type { CylinderFinding } from "@/lib/schema/facts.ts";
import { repairFact } from "../../lib/sealing/facts.ts";
import { openDemoStore } from "../jobs/demo-store.ts";
import { act, csv, history, modelsFile, newStore, source, take } from "../jobs/made-up-files.ts";

let store: Store;
const bytes = (value: unknown) => JSON.stringify(value);

beforeAll(async () => {
  store = await openDemoStore();
  return () => store.close();
}, 120_000);

const petrol = async (): Promise<EngineModel> => {
  const model = await standingModel(store, "petrol-4-a");
  if (model === null) throw new Error("the demo has no petrol-4-a");
  return model;
};
const repair = (day: number, findings: readonly CylinderFinding[]) =>
  repairFact({
    unit: "V-109",
    date: `2026-08-${day}`,
    meter: 171_900,
    scope: "top-end",
    cylinders: [2, 3],
    found: [...new Set(findings.flatMap(({ causes }) => causes))],
    findings,
  });

describe("strip-downs of the demo fleet", () => {
  it("stand with their engines, are counted with the pools, and come back the same from a rebuild", async () => {
    const kept = await stripDownsKept(store);
    expect(kept.map(({ unit }) => unit).toSorted()).toEqual(["H-302", "L-201", "V-101", "V-102"]);
    const valve = kept.find(({ unit }) => unit === "V-102");
    expect(valve).toMatchObject({ cylinder: 4, found: ["exhaust-valve"], tested: true });
    expect(valve?.seen.map(({ id }) => id)).toContain("heard-exhaust");
    const counts = await keptCauseCounts(store, await petrol());
    expect(counts.cases).toBe(2);
    await rebuild(store, { by: "A", now: act.now });
    expect(bytes(await stripDownsKept(store))).toBe(bytes(kept));
    expect(bytes(await keptCauseCounts(store, await petrol()))).toBe(bytes(counts));
  });

  it("a finding that is recorded stands beside its call at once, and its undo takes it away again", async () => {
    const before = await toldCalls(store);
    const findings = [
      { cylinder: 2, causes: [] },
      { cylinder: 3, causes: ["head-gasket"] as const },
    ];
    const outcome = await recordFacts(
      store,
      { title: "Repair of V-109", told: { repairs: [repair(29, findings)] } },
      act,
    );
    const calls = (await toldCalls(store)).find(({ engineModel }) => engineModel === "petrol-4-a")?.calls ?? [];
    const fresh = calls.filter((call) => call.case.unit === "V-109");
    expect(fresh.map((call) => [call.case.cylinder, call.called?.class, call.found, call.right]).toSorted()).toEqual([
      [2, "top-end", "sound", false],
      [3, "top-end", "top-end", true],
    ]);
    await undoImport(store, outcome.import, act);
    expect(bytes(await toldCalls(store))).toBe(bytes(before));
  });

  it("one or two more strip-downs leave the pools, three have their kind fitted anew", async () => {
    const { kinds } = await fleetKinds(store);
    const pools = await keptPools(store);
    const withMore = (more: number) =>
      kindsDue(
        kinds.map((kind) => (kind.model.id === "petrol-4-a" ? { ...kind, findings: kind.findings + more } : kind)),
        pools,
      ).map(({ model }) => model.id);
    expect(withMore(0)).toEqual([]);
    expect(withMore(2)).toEqual([]);
    expect(withMore(3)).toEqual(["petrol-4-a"]);
  });

  it("what cools an engine moves its causes and leaves its pools; another limit has them fitted anew", async () => {
    const { kinds } = await fleetKinds(store);
    const pools = await keptPools(store);
    const dueWith = (change: (model: EngineModel) => Partial<EngineModel>) =>
      kindsDue(
        kinds.map((kind) =>
          kind.model.id === "petrol-4-a" ? { ...kind, model: { ...kind.model, ...change(kind.model) } } : kind,
        ),
        pools,
      ).map(({ model }) => model.id);
    for (const cooling of ["liquid", "air"] as const)
      expect(
        dueWith(() => ({ cooling })),
        cooling,
      ).toEqual([]);
    const limit = ({ leakDown }: EngineModel) =>
      leakDown === undefined ? {} : { leakDown: { ...leakDown, limitPercent: 29 } };
    expect(dueWith(limit)).toEqual(["petrol-4-a"]);
  });
});

describe("likelihoods of a model's own", () => {
  it("move the causes of its units, leave the pools, go out and in with the models' file, and are undone", async () => {
    const seen = await petrol();
    const shareOf = async (unit: string) =>
      (await unitReport(store, unit))?.assessment.cylinders[2]?.causes.find(({ cause }) => cause === "head-gasket")
        ?.probability ?? Number.NaN;
    const [before, pools] = [await shareOf("V-109"), bytes(await keptPools(store))];
    const evidence = {
      "heard-neighbour": {
        likelihoods: { "exhaust-valve": 0.9, "head-gasket": 0.01 },
        reason: "siamesed exhaust ports",
      },
    };
    const saved = await saveModel(store, { model: { ...seen, evidence }, seen }, act);
    expect(await shareOf("V-109")).toBeLessThan(before - 0.1);
    expect(bytes(await keptPools(store))).toBe(pools);
    const file = bytes({ schemaVersion: 1, engineModels: await standingModels(store) });
    const again = readEngineModels(file, "models.json");
    expect(again.issues).toEqual([]);
    expect(again.models.find(({ id }) => id === seen.id)?.evidence).toEqual(evidence);
    await undoImport(store, saved.import, act);
    expect(await shareOf("V-109")).toBe(before);
    expect((await petrol()).evidence).toBeUndefined();
  });
});

describe("what was called before a cylinder was opened", () => {
  it("stays as it was issued when the table is edited; without an issue of that time it is told by today's table", async () => {
    const own = await newStore();
    await take(own, [modelsFile, source("tests.csv", csv(history("V-1", { rate: 3 })))]);
    const issued = (await unitReport(own, "V-1"))?.assessment.cylinders[1];
    const record = (date: string) =>
      recordFacts(
        own,
        {
          title: "Repair of V-1",
          told: {
            repairs: [
              repairFact({
                unit: "V-1",
                date,
                meter: 2700,
                scope: "top-end",
                cylinders: [2],
                found: ["exhaust-valve"],
                findings: [{ cylinder: 2, causes: ["exhaust-valve"] }],
              }),
            ],
          },
        },
        { by: "A", now: new Date("2026-07-12T08:00:00.000Z") },
      );
    const theCall = async () => (await toldCalls(own))[0]?.calls[0];

    const { import: id } = await record("2026-07-10");
    const called = await theCall();
    expect(called?.issued).toBe("2026-06-30");
    expect(called?.called?.cause).toBe(issued?.causes[0]?.cause);
    expect([issued?.topEnd, issued?.bottomEnd, issued?.testSetUp]).toContain(called?.called?.probability);

    const seen = await standingModel(own, "petrol-4-a");
    if (seen === null) throw new Error("no petrol-4-a");
    const causeShares = { shares: { "exhaust-valve": 0.9 }, reason: "a bad batch of seats" };
    await saveModel(own, { model: { ...seen, causeShares }, seen }, { by: "A", now: new Date("2026-07-13T08:00:00Z") });
    expect(await theCall()).toEqual(called);

    // Opened before anything of it had been issued: what would have been called follows the table.
    await undoImport(own, id, act);
    await record("2026-06-20");
    expect((await theCall())?.issued).toBeNull();
    expect((await theCall())?.called).not.toEqual(called?.called);
  });
});
