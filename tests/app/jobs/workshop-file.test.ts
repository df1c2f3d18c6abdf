import { describe, expect, it } from "vitest";
import { fileOfStore } from "@/app/_jobs/workshop-file.ts";
import { workshopNow } from "@/app/_jobs/workshop-now.ts";
import { changeDepot, depotSetups } from "@/db/depots.ts";
import type { Store } from "@/db/store.ts";
import { changeWorkshop, workshopHistory, workshopTold } from "@/db/workshop.ts";
import { blankDepotSetup } from "@/lib/schema/depot.ts";
import { workshopSchema } from "@/lib/schema/workshop.ts";
import { act, newStore, source, take } from "./made-up-files.ts";

const at = act.now.toISOString();
const [a, b] = [
  { by: "A. First", at },
  { by: "B. Second", at },
];

/** With a depot of one bay, and one of which nobody told anything. */
async function storeWithDepots(): Promise<Store> {
  const store = await newStore();
  await take(store, [source("depots.csv", "depot,altitude_m\nNorth,10\nSouth,20\n")]);
  const setup = { ...blankDepotSetup, bays: 1, technicians: 4, builders: 3 };
  expect(await changeDepot(store, "North", setup, { ...a, after: null })).toBeNull();
  return store;
}

const fileOf = (store: Store, document: object) => fileOfStore(store, JSON.stringify(document));

describe("a file of prices and workshops", () => {
  it("tells what it would make of prices and of depots; what it leaves out of a depot stays", async () => {
    const store = await storeWithDepots();
    const file = await fileOf(store, {
      labourRate: 61,
      depots: { North: { bays: 2, labourRate: 70 }, South: {} },
      pins: [{ unit: "gone", scope: "both", date: "2026-09-07" }],
    });
    const setup = { ...blankDepotSetup, bays: 2, technicians: 4, builders: 3, labourRate: 70 };
    const after = (await depotSetups(store)).get("North")?.id;
    expect(file).toMatchObject({ pins: 1, workshop: { labourRate: 61, depots: {}, pins: [] } });
    expect(typeof file === "string" ? file : file.depots).toEqual([
      { depot: "North", setup, before: { ...setup, bays: 1, labourRate: null }, after },
    ]);
  });

  it("written by the store changes nothing", async () => {
    const store = await storeWithDepots();
    const file = await fileOf(store, (await workshopNow(store)).workshop);
    expect(file).toEqual({ workshop: workshopSchema.parse({}), depots: [], pins: 0 });
  });

  it.each([
    ["{", /^The file is not usable: it is not JSON\.$/],
    ["[]", /^The file is not usable: /],
    ['{"planWeeks": 7}', /^The file is not usable: planWeeks: /],
    ['{"plannWeeks": 60}', /^The file is not usable: .*plannWeeks/],
    ['{"depots": {"West": {}}}', /depots\.West: No depot West is known/],
    ['{"groups": [{"name": "a", "units": ["X", "Y"], "mostOut": 1}]}', /groups\.0\.units\.0: No unit X is known/],
    // With the three builders that the file leaves as they are.
    ['{"depots": {"North": {"technicians": 2}}}', /depots\.North\.builders: .*write at most 2,/],
  ])("is refused with the place and the reason: %s", async (text, words) => {
    expect(await fileOfStore(await storeWithDepots(), text)).toMatch(words);
  });
});

describe("prices and depots told at once", () => {
  const workshop = workshopSchema.parse({ labourRate: 61 });
  const north = { depot: "North", setup: { ...blankDepotSetup, bays: 5 } };

  it("are kept together, or not at all where one of them changed meanwhile", async () => {
    const store = await storeWithDepots();
    const seen = (await depotSetups(store)).get("North")?.id ?? null;
    await changeDepot(store, "North", { ...blankDepotSetup, bays: 9 }, { ...b, after: seen });
    expect(await changeWorkshop(store, workshop, { ...a, after: 0, depots: [{ ...north, after: seen }] })).toEqual(b);
    expect((await workshopTold(store)).id).toBe(0);
    const now = (await depotSetups(store)).get("North")?.id ?? null;
    expect(await changeWorkshop(store, workshop, { ...a, after: 0, depots: [{ ...north, after: now }] })).toBeNull();
    expect((await depotSetups(store)).get("North")?.setup).toEqual(north.setup);
    expect((await workshopNow(store)).workshop).toMatchObject({ labourRate: 61, depots: { North: { bays: 5 } } });
    // Prices that somebody else told since stand.
    expect(await changeWorkshop(store, workshop, { ...b, after: 0 })).toEqual(a);
    expect(await workshopHistory(store, { limit: 9 })).toHaveLength(1);
  });
});
