import { describe, expect, it } from "vitest";
import { keepReports } from "@/db/assessments.ts";
import { changeDepot } from "@/db/depots.ts";
import { replaceEngines } from "@/db/engines.ts";
import { asksNothing, findDepots, findEngines, findUnits } from "@/db/search.ts";
import type { Store } from "@/db/store.ts";
import { blankDepotSetup } from "@/lib/schema/depot.ts";
import { at, by, model, take, temporaryStore, test as testFact } from "./made-up.ts";
import { report } from "./made-up-report.ts";

const stay = (unit: string, toDate: string | null) => ({ unit, fromDate: "2024-01-01", toDate, fromX: 0, toX: null });

async function fleet(): Promise<Store> {
  const store = await temporaryStore();
  const pump = { model: model({ id: "pump-8", name: "Eight_in V" }) };
  await keepReports(
    store,
    [
      report("XV-1", { depot: "North" }),
      report("V-10", { depot: "North" }),
      report("V-2", { depot: "South 100%", ...pump, assessment: { engineModel: "pump-8", engineSerial: "AB-2" } }),
    ],
    { because: "import", at, version: 0 },
  );
  await replaceEngines(store, {
    units: [],
    engines: [
      {
        engine: "AB-1",
        serial: "AB-1",
        engineModel: "pump-8",
        meterUnit: "h",
        // The records leave it in two units.
        fittings: [stay("XV-1", "2025-01-01"), stay("V-1", null), stay("V-10", null)],
      },
      {
        engine: "XAB-1",
        serial: "XAB-1",
        engineModel: "pump-8",
        meterUnit: "h",
        fittings: [stay("V-2", "2025-01-01")],
      },
      { engine: "unit V-3", serial: null, engineModel: "pump-8", meterUnit: "h", fittings: [stay("V-3", null)] },
    ],
  });
  return store;
}

const unitsFor = async (text: string, limit = 10) => (await findUnits(await fleet(), text, limit)).map((u) => u.unit);

describe("units", () => {
  it("whose number begins with the text come first, in the order of people; case does not matter", async () => {
    expect(await unitsFor("v-")).toEqual(["V-2", "V-10", "XV-1"]);
    expect(await unitsFor("V-", 1)).toEqual(["V-2"]);
  });
  it("are found by several words in any order, and by depot, model and serial", async () => {
    expect(await unitsFor("north xv")).toEqual(["XV-1"]);
    expect(await unitsFor("ab-2")).toEqual(["V-2"]);
  });
  it("are found by their number without its dash, and not by two words that stand side by side", async () => {
    expect(await unitsFor("v10")).toEqual(["V-10"]);
    expect(await unitsFor("xv1")).toEqual(["XV-1"]);
    expect(await unitsFor("unit v-2")).toEqual(["V-2"]);
    // “Cylinder 1” of each weakest place is no R-1.
    expect(await unitsFor("r-1")).toEqual([]);
  });
  it("a sign that the database would read as any letter is only itself", async () => {
    expect(await unitsFor("%")).toEqual(["V-2"]);
    expect(await unitsFor("_")).toEqual(["V-2"]);
  });
});

it("engines are told with the unit that they are in now; those without a serial number are not found", async () => {
  expect(await findEngines(await fleet(), "ab-1", 10)).toEqual([
    { engine: "AB-1", serial: "AB-1", engineModel: "pump-8", unit: "V-10" },
    { engine: "XAB-1", serial: "XAB-1", engineModel: "pump-8", unit: null },
  ]);
  expect((await findEngines(await fleet(), "v-3", 10)).map(({ engine }) => engine)).toEqual([]);
});

it("depots that units stand at are found once each", async () => {
  const store = await fleet();
  expect(await findDepots(store, "o", 10)).toEqual(["North", "South 100%"]);
  expect(await findDepots(store, "NORTH", 10)).toEqual(["North"]);
});

it("depots at which no unit stands are found by their tests, their altitude or what was set for them", async () => {
  const store = await fleet();
  await take(store, {
    tests: [testFact({ depot: "Bare Tested" })],
    depots: [{ depot: "Bare Told", altitudeM: 620, file: "depots.csv", line: 2 }],
  });
  await changeDepot(store, "Bare Planned", { ...blankDepotSetup, bays: 1 }, { by, at, after: null });
  expect(await findDepots(store, "bare", 10)).toEqual(["Bare Planned", "Bare Tested", "Bare Told"]);
  expect(await findDepots(store, "told bare", 10)).toEqual(["Bare Told"]);
  expect(await findDepots(store, "bare", 2)).toEqual(["Bare Planned", "Bare Tested"]);
});

it("spaces ask for nothing", () => {
  expect(asksNothing("  ")).toBe(true);
  expect(asksNothing(" v")).toBe(false);
});
