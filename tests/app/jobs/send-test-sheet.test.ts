import { expect, it } from "vitest";
import { isSheetOf, reopenTestSheet, sendTestSheet } from "@/app/_jobs/send-test-sheet.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { unitReport } from "@/db/assessments.ts";
import { fleetFacts } from "@/db/facts.ts";
import { beginImport, importDetail, listImports } from "@/db/imports.ts";
import type { Store } from "@/db/store.ts";
import { draftOf, readingOf } from "../../lib/test-entry/made-up.ts";
import { act, csv, history, modelsFile, newStore, source, take } from "./made-up-files.ts";

const draft = draftOf({
  test: "leak-down",
  valueUnit: "%",
  supply: 550,
  meter: 2900,
  readings: [3, 1, 2, 4].map((cylinder) => readingOf(cylinder, 12 + cylinder)),
});

async function withUnit(): Promise<Store> {
  const store = await newStore();
  await take(store, [modelsFile, source("tests.csv", csv(history("V-1")))]);
  return store;
}

const testsOf = async (store: Store) =>
  (await fleetFacts(store, { units: ["V-1"] })).tests.filter(({ date }) => date === draft.date);
const sheetsOf = async (store: Store) => (await listImports(store)).filter(({ origin }) => origin === "form");

it("a sheet is kept as an import with its order, and its unit assessed anew", async () => {
  const store = await withUnit();
  const sent = await sendTestSheet(store, draft, act);
  expect(sent).toEqual({ import: `sheet-${draft.id}`, wasThere: false });
  const [test] = await testsOf(store);
  expect(test).toMatchObject({ test: "leak-down", attempt: 1, testedBy: "A. Fitter", meter: 2900 });
  expect(test?.readings.map(({ cylinder, value, order }) => [cylinder, value, order])).toEqual([
    [1, 13, 2],
    [2, 14, 3],
    [3, 15, 1],
    [4, 16, 4],
  ]);
  expect((await unitReport(store, "V-1"))?.assessment.lastTestDate).toBe(draft.date);
  const detail = await importDetail(store, sent.import);
  expect(detail).toMatchObject({ state: "committed", by: act.by, origin: "form" });
  expect([isSheetOf(detail!, "V-1"), isSheetOf(detail!, "V-10")]).toEqual([true, false]);
});

it("sent at once and again after a lost answer, it is kept once, and every sender is told so", async () => {
  const store = await withUnit();
  const sent = await Promise.all(Array.from({ length: 4 }, () => sendTestSheet(store, draft, act)));
  expect(sent.filter(({ wasThere }) => !wasThere)).toHaveLength(1);
  expect(new Set(sent.map((each) => each.import)).size).toBe(1);
  const before = await unitReport(store, "V-1");
  expect(await sendTestSheet(store, draft, act)).toEqual({ import: sent[0]!.import, wasThere: true });
  expect(await testsOf(store)).toHaveLength(1);
  expect(await sheetsOf(store)).toHaveLength(1);
  expect(await unitReport(store, "V-1")).toEqual(before);
});

it("a sheet that was taken back stays so when the device sends it again", async () => {
  const store = await withUnit();
  const sent = await sendTestSheet(store, draft, act);
  await undoImport(store, sent.import, act);
  expect(await sendTestSheet(store, draft, act)).toEqual({ ...sent, wasThere: true });
  expect(await testsOf(store)).toHaveLength(0);
});

it("two sheets of one day become two attempts, also when they come at once", async () => {
  const store = await withUnit();
  const other = { ...draft, id: "ffeeddccbbaa998877665544", readings: [readingOf(3, 22)] };
  const sent = await Promise.all([draft, other].map((each) => sendTestSheet(store, each, act)));
  expect(sent.map(({ wasThere }) => wasThere)).toEqual([false, false]);
  const tests = await testsOf(store);
  expect(tests.map(({ attempt }) => attempt)).toEqual([1, 2]);
  expect(tests.flatMap(({ readings }) => readings.map(({ value }) => value)).toSorted((a, b) => a - b)).toEqual([
    13, 14, 15, 16, 22,
  ]);
});

it("what cannot be taken keeps nothing, says why, and is taken once it is put right", async () => {
  const store = await withUnit();
  await expect(sendTestSheet(store, { ...draft, meter: 100 }, act)).rejects.toThrow(/Nothing was kept/);
  await expect(sendTestSheet(store, { ...draft, date: "2027-01-01" }, act)).rejects.toThrow(/Nothing was kept/);
  await expect(sendTestSheet(store, { ...draft, readings: [readingOf(9, 12)] }, act)).rejects.toThrow(
    /Nothing was kept/,
  );
  expect(await testsOf(store)).toHaveLength(0);
  expect((await sendTestSheet(store, draft, act)).wasThere).toBe(false);
  expect(await testsOf(store)).toHaveLength(1);
});

it("what a killed server left on the way does not keep the sheet out", async () => {
  const store = await withUnit();
  await beginImport(store, {
    id: `sheet-${draft.id}`,
    by: act.by,
    at: act.now.toISOString(),
    files: [],
    origin: "form",
  });
  expect(await sendTestSheet(store, draft, act)).toEqual({ import: `sheet-${draft.id}-2`, wasThere: false });
  expect((await sendTestSheet(store, draft, act)).wasThere).toBe(true);
  expect(await testsOf(store)).toHaveLength(1);
});

it("a device that wants to change a sheet is told where it arrived, also of one that is on its way", async () => {
  const store = await withUnit();
  const sending = sendTestSheet(store, draft, act);
  expect(await reopenTestSheet(store, draft.id)).toBe(`sheet-${draft.id}`);
  expect((await sending).wasThere).toBe(false);
  expect(await sendTestSheet(store, draft, act)).toMatchObject({ wasThere: true });
  await undoImport(store, `sheet-${draft.id}`, act);
  expect(await reopenTestSheet(store, draft.id)).toBe(`sheet-${draft.id}`);
});

it("where none arrived, none that is still on its way is taken, and the changed sheet goes by another id", async () => {
  const store = await withUnit();
  await expect(sendTestSheet(store, { ...draft, meter: 100 }, act)).rejects.toThrow(/Nothing was kept/);
  expect(await reopenTestSheet(store, draft.id)).toBeNull();
  await expect(sendTestSheet(store, draft, act)).rejects.toThrow("opened again on its device");
  expect(await testsOf(store)).toHaveLength(0);
  const changed = { ...draft, id: "ffeeddccbbaa998877665544" };
  expect(await sendTestSheet(store, changed, act)).toMatchObject({ wasThere: false });
  expect(await testsOf(store)).toHaveLength(1);
});
