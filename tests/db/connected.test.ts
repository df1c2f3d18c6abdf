import { describe, expect, it } from "vitest";
import { touchedUnits, unitsConnectedTo } from "@/db/connected.ts";
import { fleetFacts } from "@/db/facts.ts";
import { countFacts } from "@/db/fleet-known.ts";
import { undoImport } from "@/db/import-state.ts";
import { at, by, meterReading, model, reading, repair, stage, take, temporaryStore, test, unit } from "./made-up.ts";

describe("units connected over shared engines", () => {
  it("are found through tests, repairs and units files, over several steps", async () => {
    const store = await temporaryStore();
    await take(store, {
      tests: [test({ unit: "A", engineSerial: "S1" }), test({ unit: "E", engineSerial: "S9" }), test({ unit: "F" })],
      repairs: [
        repair({ unit: "B", scope: "engine-swap", engineSerial: "S1" }),
        repair({ unit: "B", engineSerial: "S2" }),
      ],
      units: [unit({ unit: "C", engineSerial: "S2" }), unit({ unit: "D" })],
    });
    expect(await unitsConnectedTo(store, ["C"])).toEqual(["A", "B", "C"]);
    expect(await unitsConnectedTo(store, ["E", "D"])).toEqual(["D", "E"]);
    expect(await unitsConnectedTo(store, ["unknown"])).toEqual(["unknown"]);
    expect(await unitsConnectedTo(store, [])).toEqual([]);
  });

  it("stay connected when their link is undone, and are not by what is only staged", async () => {
    const store = await temporaryStore();
    await take(store, { tests: [test({ unit: "A", engineSerial: "S1" })] });
    await stage(store, { tests: [test({ unit: "X", engineSerial: "S1" })] });
    const link = await take(store, { tests: [test({ unit: "B", engineSerial: "S1" })] });
    await undoImport(store, link, { by, at });
    expect(await unitsConnectedTo(store, ["B"])).toEqual(["A", "B"]);
  });
});

describe("units touched by an import", () => {
  it("are those that it says something new of, before commit and after undo", async () => {
    const store = await temporaryStore();
    await take(store, { tests: [test({ unit: "A" }), test({ unit: "B" })] });
    const news = {
      tests: [test({ unit: "A" }), test({ unit: "B", readings: [reading(1, 999)] })],
      meterReadings: [meterReading({ unit: "C" })],
      repairs: [repair({ unit: "D" })],
    };
    expect(await touchedUnits(store, (await stage(store, news)).importId)).toEqual(["B", "C", "D"]);
    const id = await take(store, news);
    expect(await touchedUnits(store, id)).toEqual(["B", "C", "D"]);
    await undoImport(store, id, { by, at });
    expect(await touchedUnits(store, id)).toEqual(["B", "C", "D"]);
  });

  it("are also those whose depot or engine model it tells of", async () => {
    const store = await temporaryStore();
    await take(store, {
      units: [unit({ unit: "A", depot: "North" }), unit({ unit: "B", depot: "South", engineModel: "diesel-6" })],
      tests: [test({ unit: "C", depot: "North", engineModel: "other" })],
    });
    const depots = await take(store, { depots: [{ depot: "North", altitudeM: 1850, file: "d.csv", line: 2 }] });
    expect(await touchedUnits(store, depots)).toEqual(["A", "C"]);
    const models = await take(store, { models: { file: "m.json", models: [model({ id: "diesel-6" })] } });
    expect(await touchedUnits(store, models)).toEqual(["B"]);
  });
});

it("facts of some units are those of the whole fleet that tell of them", async () => {
  const store = await temporaryStore();
  await take(store, {
    tests: ["A", "B", "C"].map((name) => test({ unit: name })),
    units: ["A", "B"].map((name) => unit({ unit: name })),
    repairs: ["A", "C"].map((name) => repair({ unit: name })),
  });
  const all = await fleetFacts(store);
  const some = await fleetFacts(store, { units: ["C", "A", "A", "none"] });
  const of = <F extends { unit: string }>(facts: readonly F[]) => facts.filter((fact) => fact.unit !== "B");
  expect(some).toEqual({ ...all, tests: of(all.tests), units: of(all.units), repairs: of(all.repairs) });
  expect(await fleetFacts(store, { units: [] })).toMatchObject({ tests: [], units: [], repairs: [] });
});

it("facts are counted as they stand: a corrected reading once, what was undone not", async () => {
  const store = await temporaryStore();
  await take(store, { tests: [test()], repairs: [repair()], units: [unit({ unit: "V-2" })] });
  await take(store, { tests: [test({ readings: [reading(1, 999)] })] });
  const gone = await take(store, { tests: [test({ unit: "V-3" })], repairs: [repair({ cost: 5 })] });
  const counted = {
    units: 2,
    tests: 1,
    readings: 2,
    repairs: 1,
    meterReadings: 0,
    checks: 0,
    judgements: 0,
    engineModels: 0,
  };
  expect(await countFacts(store)).toEqual({ ...counted, units: 3, tests: 2, readings: 4 });
  await undoImport(store, gone, { by, at });
  expect(await countFacts(store)).toEqual(counted);
});
