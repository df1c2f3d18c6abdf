import { expect, it } from "vitest";
import { commitImport } from "@/app/_jobs/commit-import.ts";
import { readAgain } from "@/app/_jobs/read-again.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { takeProposal } from "@/app/_jobs/take-proposal.ts";
import { fleetFacts } from "@/db/facts.ts";
import { importDetail, importIssues } from "@/db/imports.ts";
import type { Store } from "@/db/store.ts";
import { act, csv, history, line, modelsFile, newStore, source, take } from "./made-up-files.ts";

/** A store that knows one unit, tested on 10 February 2024 at 1,000 h to February 2026 at 2,600 h. */
async function storeWithUnit(): Promise<Store> {
  const store = await newStore();
  await take(store, [modelsFile, source("known.csv", csv(history("B-1")))]);
  return store;
}

async function offersOf(store: Store, importId: string) {
  const { issues } = await importIssues(store, importId, { offset: 0, limit: 100 });
  return issues.flatMap(({ id, proposals }) => (proposals ?? []).map((p, proposal) => ({ ...p, issue: id, proposal })));
}

const testOn = (date: string, meter: number, unit = "B-1") =>
  [1, 2, 3, 4].map((cylinder) => line({ unit, date, meter, cylinder, value: 10.5 + 1.25 * cylinder }));

it("reads the waiting import anew with the figure that was meant, and keeps the file as it was given", async () => {
  const store = await storeWithUnit();
  const text = csv([...testOn("2026-04-01", 2670), ...testOn("2026-05-01", 2171)]);
  const staged = await stageImport(store, [source("late.csv", text)], act);
  expect(staged).toMatchObject({ newRows: 4, refusedRows: 4 });
  const [offer] = await offersOf(store, staged.id);
  expect(offer).toMatchObject({ kind: "meter-digits", words: "Read the meter as 2,711 h" });
  const after = await takeProposal(store, staged.id, { ...act, issue: offer!.issue, proposal: offer!.proposal });
  expect(after).toMatchObject({ newRows: 8, refusedRows: 0 });
  expect(after.files[0]).toMatchObject({ name: "late.csv", sha256: staged.files[0]?.sha256 });
  expect(await importDetail(store, staged.id)).toMatchObject({ state: "discarded" });
  await commitImport(store, after.id, { ...act, takeChanges: false });
  expect((await fleetFacts(store)).tests.at(-1)).toMatchObject({ date: "2026-05-01", meter: 2711 });
});

it("takes a new meter that was never told as a reading of its own; wear goes on", async () => {
  const store = await storeWithUnit();
  const staged = await stageImport(store, [source("late.csv", csv(testOn("2026-05-01", 12)))], act);
  const [offer] = await offersOf(store, staged.id);
  expect(offer).toMatchObject({ kind: "meter-reset" });
  const after = await takeProposal(store, staged.id, { ...act, issue: offer!.issue, proposal: offer!.proposal });
  expect(after).toMatchObject({ newRows: 5, refusedRows: 0 });
  await commitImport(store, after.id, { ...act, takeChanges: false });
  expect((await fleetFacts(store)).meterReadings).toMatchObject([
    { unit: "B-1", date: "2026-05-01", meter: 12, meterReset: true },
  ]);
});

it("reads every row of a misspelt unit as the known one, and keeps that when the file is read again", async () => {
  const store = await storeWithUnit();
  const rows = [...testOn("2026-04-01", 2670, "b 1"), ...testOn("2026-05-01", 2690, "b 1")];
  const without = csv(rows).replaceAll(",petrol-4-a,", ",,");
  const staged = await stageImport(store, [source("late.csv", without)], act);
  expect(staged).toMatchObject({ newRows: 0, refusedRows: 8 });
  const offers = await offersOf(store, staged.id);
  expect(new Set(offers.map((offer) => offer.words))).toEqual(new Set(["Read the unit as B-1"]));
  const taken = await takeProposal(store, staged.id, { ...act, issue: offers[0]!.issue, proposal: 0 });
  expect(taken).toMatchObject({ newRows: 8, refusedRows: 0 });
  const again = await readAgain(store, taken.id, { ...act, choices: { "late.csv": { delimiter: "comma" } } });
  expect(again).toMatchObject({ newRows: 8, refusedRows: 0 });
});

it("points out a new unit that is almost a known one, and takes it with a warning otherwise", async () => {
  const store = await storeWithUnit();
  const staged = await stageImport(store, [source("late.csv", csv(testOn("2026-04-01", 2670, "B-01")))], act);
  expect(staged).toMatchObject({ newRows: 4, warnedRows: 1 });
  expect(await offersOf(store, staged.id)).toMatchObject([{ kind: "unit-name", words: "Read the unit as B-1" }]);
});

it("looks at new tests beside those that the store knows", async () => {
  const store = await storeWithUnit();
  const rows = history("B-1")
    .slice(-4)
    .map((row) => row.replace(/2026-02-10/, "2026-02-11"));
  const staged = await stageImport(store, [source("late.csv", csv(rows))], act);
  const [offer] = await offersOf(store, staged.id);
  expect(offer).toMatchObject({ kind: "test-date", words: "Read the date as 2026-02-10" });
  const after = await takeProposal(store, staged.id, { ...act, issue: offer!.issue, proposal: 0 });
  expect(after).toMatchObject({ newRows: 0, knownRows: 4, warnedRows: 0 });
});

it("says so where a proposal is not there any more, and leaves the import as it was", async () => {
  const store = await storeWithUnit();
  const staged = await stageImport(store, [source("late.csv", csv(testOn("2026-05-01", 12)))], act);
  const [offer] = await offersOf(store, staged.id);
  for (const wrong of [
    { issue: offer!.issue, proposal: 1 },
    { issue: offer!.issue + 1000, proposal: 0 },
  ]) {
    await expect(takeProposal(store, staged.id, { ...act, ...wrong })).rejects.toThrow("not there any more");
  }
  expect(await importDetail(store, staged.id)).toMatchObject({ state: "staged" });
});
