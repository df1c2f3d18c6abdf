import { expect, it } from "vitest";
import { touchedUnits, unitsConnectedTo } from "@/db/connected.ts";
import { fleetFacts } from "@/db/facts.ts";
import { factUnits } from "@/db/fleet-known.ts";
import { undoImport } from "@/db/import-state.ts";
import { testHistories, testHistoryKey } from "@/db/test-history.ts";
import { judgementFact } from "../lib/sealing/facts.ts";
import { at, by, reading, repair, stage, take, temporaryStore, test } from "./made-up.ts";

const judged = (more: Parameters<typeof judgementFact>[0] = {}) =>
  judgementFact({ unit: "V-1", date: test().date, test: test().test, instrument: test().instrument, ...more });
const standing = async (store: Awaited<ReturnType<typeof temporaryStore>>) =>
  (await fleetFacts(store)).judgements.map(({ cylinder, verdict, reason }) => [cylinder, verdict, reason]);

it("of one test, or one cylinder of it, the last judgement stands, and the one before where it is undone", async () => {
  const store = await temporaryStore();
  await take(store, { tests: [test()] });
  await take(store, { judgements: [judged(), judged({ cylinder: 2, reason: "hose" })] });
  const second = await take(store, { judgements: [judged({ verdict: "accepted", reason: "measured again" })] });
  expect(await standing(store)).toEqual([
    [null, "accepted", "measured again"],
    [2, "set-aside", "hose"],
  ]);
  const back = await take(store, { judgements: [judged({ verdict: "none", reason: "slip" })] });
  expect((await standing(store))[0]).toEqual([null, "none", "slip"]);
  await undoImport(store, back, { by, at });
  await undoImport(store, second, { by, at });
  expect(await standing(store)).toEqual([
    [null, "set-aside", "gauge found broken"],
    [2, "set-aside", "hose"],
  ]);
});

it("counts as new, known and changed as other facts do, and touches its unit alone", async () => {
  const store = await temporaryStore();
  await take(store, { tests: [test(), test({ unit: "V-2" })], repairs: [repair()] });
  const news = { judgements: [judged()] };
  const importId = await take(store, news);
  expect(await touchedUnits(store, importId)).toEqual(["V-1"]);
  expect(await unitsConnectedTo(store, ["V-1"])).toEqual(["V-1"]);
  expect(await factUnits(store)).toEqual(["V-1", "V-2"]);
  expect((await stage(store, news)).counts).toMatchObject({ newRows: 0, knownRows: 1, changedRows: 0 });
  const other = await stage(store, { judgements: [judged({ verdict: "accepted" })] });
  expect(other.counts).toMatchObject({ newRows: 0, knownRows: 0, changedRows: 1 });
  expect(await touchedUnits(store, other.importId)).toEqual(["V-1"]);
});

it("findings by cylinder are kept with their repair, and a later row without them leaves them", async () => {
  const store = await temporaryStore();
  const findings = [{ cylinder: 2, causes: ["piston" as const] }];
  await take(store, { repairs: [repair({ findings, found: ["piston"] })] });
  await take(store, { repairs: [repair({ cost: 12 })] });
  expect((await fleetFacts(store)).repairs).toMatchObject([{ findings, found: ["piston"], cost: 12 }]);
});

it("a test has a history once it was told again or judged, in the order of the commits", async () => {
  const store = await temporaryStore();
  await take(store, { tests: [test(), test({ unit: "V-2" })] });
  expect((await testHistories(store, ["V-1", "V-2"])).size).toBe(0);
  const corrected = await take(store, { tests: [test({ readings: [reading(1, 1150)] })] });
  await take(store, { judgements: [judged({ unit: "V-2" })] });
  const histories = await testHistories(store, ["V-1", "V-2"]);
  expect(histories.get(testHistoryKey(test()))).toMatchObject([
    { kind: "told", test: { readings: [{ value: 1200 }, { value: 1190 }] } },
    { kind: "told", importId: corrected, test: { readings: [{ cylinder: 1, value: 1150 }] }, undoneBy: null },
  ]);
  expect(histories.get(testHistoryKey(test({ unit: "V-2" })))).toMatchObject([{ kind: "told" }, { kind: "judged" }]);
  await undoImport(store, corrected, { by: "B. Clerk", at });
  expect((await testHistories(store, ["V-1"])).get(testHistoryKey(test()))?.[1]).toMatchObject({
    undoneBy: "B. Clerk",
  });
});
