import { expect, it } from "vitest";
import { keepReports } from "@/db/assessments.ts";
import { altitudeHistory, depotOverviews } from "@/db/depot-overview.ts";
import { changeDepot, depotSetups } from "@/db/depots.ts";
import { undoImport } from "@/db/import-state.ts";
import { blankDepotSetup } from "@/lib/schema/depot.ts";
import { at, by, take, temporaryStore, test } from "./made-up.ts";
import { report } from "./made-up-report.ts";

const depotFact = (depot: string, altitudeM: number | null) => ({ depot, altitudeM, file: "depots.csv", line: 2 });
const names = async (store: Parameters<typeof depotOverviews>[0]) =>
  (await depotOverviews(store)).map(({ depot }) => depot);

it("depots are those that a fact which stands, a unit or a calendar names", async () => {
  const store = await temporaryStore();
  expect(await depotOverviews(store)).toEqual([]);
  const id = await take(store, { tests: [test({ depot: "Tested" })], depots: [depotFact("Told", 620)] });
  await keepReports(store, [report("V-1", { depot: "Home" })], { because: "import", at, version: 1 });
  await changeDepot(store, "Planned", { ...blankDepotSetup, bays: 1 }, { by, at, after: null });
  expect(await names(store)).toEqual(["Home", "Planned", "Tested", "Told"]);

  await undoImport(store, id, { by, at });
  const change = (await depotSetups(store)).get("Planned");
  await changeDepot(store, "Planned", blankDepotSetup, { by, at, after: change?.id ?? null });
  expect(await names(store)).toEqual(["Home"]);
});

it("a depot is told with its altitude and its units by band", async () => {
  const store = await temporaryStore();
  await take(store, { depots: [depotFact("North", 1850), depotFact("South", null)] });
  const here = (unit: string, band: "plan" | "sound" | null) => report(unit, { depot: "North", assessment: { band } });
  const reports = [here("V-1", "plan"), here("V-2", "sound"), here("V-3", "sound"), here("V-4", null)];
  await keepReports(store, reports, { because: "import", at, version: 1 });
  const [north, south] = await depotOverviews(store);
  expect(north?.altitudeM).toBe(1850);
  expect(Object.fromEntries([...(north?.units ?? [])].map(([band, count]) => [band ?? "none", count]))).toEqual({
    plan: 1,
    sound: 2,
    none: 1,
  });
  expect([south?.altitudeM, south?.units.size, south?.change]).toEqual([null, 0, null]);
});

it("every altitude that was told stays in the history, also one undone", async () => {
  const store = await temporaryStore();
  const first = await take(store, { depots: [depotFact("North", 1850)] });
  const second = await take(store, { depots: [depotFact("North", 1650)] });
  await undoImport(store, second, { by: "B. Clerk", at });
  const told = (await altitudeHistory(store, "North")).map(({ importId, altitudeM, state }) => [
    importId,
    altitudeM,
    state,
  ]);
  expect(told).toEqual([
    [second, 1650, "undone"],
    [first, 1850, "committed"],
  ]);
  expect((await depotOverviews(store))[0]?.altitudeM).toBe(1850);
});
