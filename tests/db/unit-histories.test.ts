import { expect, it } from "vitest";
import { fleetFacts } from "@/db/facts.ts";
import { undoImport } from "@/db/import-state.ts";
import { unitHistories } from "@/db/unit-histories.ts";
import { at, by, meterReading, repair, take, temporaryStore, test, unit } from "./made-up.ts";

it("histories tell of each unit what stands, as the facts do, without the readings of its tests", async () => {
  const store = await temporaryStore();
  const first = await take(store, { tests: [test(), test({ unit: "V-2" })], repairs: [repair()] });
  await take(store, { tests: [test({ meter: 1100, warm: true })], units: [unit({ engineModel: "four", line: 7 })] });
  const declined = { tests: [test({ meter: 5 })], repairs: [repair({ meter: 7 })], meterReadings: [meterReading()] };
  await take(store, declined, { takeChanges: false });
  for (const undone of [null, first]) {
    if (undone !== null) await undoImport(store, undone, { by, at });
    const units = ["V-1", "V-2", "V-3"];
    const facts = await fleetFacts(store, { units });
    const histories = await unitHistories(store, units);
    expect([...histories.keys()].sort()).toEqual([...new Set(facts.tests.map((fact) => fact.unit))]);
    const { listed, tests, repairs, meterReadings, checks } = histories.get("V-1")!;
    expect(listed).toMatchObject({ engineModel: "four", meterUnit: null });
    expect(tests.map((known) => [known.date, known.meter])).toEqual([["2026-03-01", 1100]]);
    expect(repairs.map((known) => known.meter)).toEqual(facts.repairs.map((fact) => fact.meter));
    expect(repairs.map((known) => known.meter)).toEqual([undone === null ? 900 : 7]);
    expect(meterReadings.map((known) => known.meter)).toEqual([800]);
    expect(checks).toEqual([]);
    expect(tests[0]).not.toHaveProperty("readings");
  }
});
