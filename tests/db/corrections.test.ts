import { expect, it } from "vitest";
import { touchedUnits } from "@/db/connected.ts";
import { fleetFacts } from "@/db/facts.ts";
import { undoImport } from "@/db/import-state.ts";
import { testHistories, testHistoryKey } from "@/db/test-history.ts";
import { unitHistories } from "@/db/unit-histories.ts";
import { judgementFact } from "../lib/sealing/facts.ts";
import { at, by, reading, stage, take, temporaryStore, test } from "./made-up.ts";

const known = test({
  warm: true,
  depot: "North",
  readings: [reading(1, 1200, { firstStroke: 800, remarks: "cold" }), reading(2, 1190)],
});
const stands = async (store: Awaited<ReturnType<typeof temporaryStore>>) => (await fleetFacts(store)).tests[0];

it("a correction is told whole: what it leaves blank becomes blank, in the readings that it tells", async () => {
  const store = await temporaryStore();
  await take(store, { tests: [known] });
  const told = { tests: [test({ depot: "North", readings: [reading(1, 1200)] })] };
  expect((await stage(store, told)).counts).toMatchObject({ newRows: 0, changedRows: 0, knownRows: 1 });
  const correction = { ...told, origin: "correction" } as const;
  const importId = await take(store, correction);
  expect(await stands(store)).toMatchObject({
    warm: null,
    depot: "North",
    readings: [{ cylinder: 1, value: 1200, firstStroke: null, remarks: null }, { value: 1190 }],
  });
  expect(await touchedUnits(store, importId)).toEqual(["V-1"]);
  expect((await stage(store, correction)).counts).toMatchObject({ newRows: 0, changedRows: 0 });
  // The file that told it first says otherwise now: taken on consent alone.
  expect((await stage(store, { tests: [known] })).counts).toMatchObject({ newRows: 0, changedRows: 2 });
  await take(store, { tests: [known] }, { takeChanges: false });
  expect(await stands(store)).toMatchObject({ warm: null, readings: [{ firstStroke: null }, {}] });
  await undoImport(store, importId, { by, at });
  expect(await stands(store)).toMatchObject({ warm: true, readings: [{ firstStroke: 800, remarks: "cold" }, {}] });
});

it("heads alone are laid over each other as whole tests are", async () => {
  const store = await temporaryStore();
  await take(store, { tests: [test({ engineModel: "old" })] });
  await take(store, { tests: [test({ engineModel: null, meter: 1010 })], origin: "correction" });
  expect((await unitHistories(store, ["V-1"])).get("V-1")?.tests).toMatchObject([{ meter: 1010, engineModel: null }]);
});

it("a test that a form told under another name leads from one to the other; what a file withdraws does not", async () => {
  const store = await temporaryStore();
  await take(store, { tests: [known] });
  const withdrawn = judgementFact({ unit: "V-1", date: known.date, test: known.test, verdict: "withdrawn" });
  const right = test({ unit: "V-2", date: "2026-03-02" });
  const importId = await take(store, { tests: [right], judgements: [withdrawn], origin: "form" });
  expect((await testHistories(store, ["V-2"])).get(testHistoryKey(right))).toMatchObject([
    { kind: "told", test: { unit: "V-1" } },
    { kind: "told", test: { unit: "V-2" }, importId },
  ]);
  expect((await testHistories(store, ["V-1"])).get(testHistoryKey(known))).toMatchObject([
    { kind: "told" },
    { kind: "judged", toldAs: { unit: "V-2", date: "2026-03-02" } },
  ]);
  expect(await touchedUnits(store, importId)).toEqual(["V-1", "V-2"]);
  await undoImport(store, importId, { by, at });
  expect((await testHistories(store, ["V-2"])).get(testHistoryKey(right))).toHaveLength(1);
  await take(store, { tests: [test({ date: "2026-04-01" })], judgements: [withdrawn] });
  expect((await testHistories(store, ["V-1"])).get(testHistoryKey(known))?.at(-1)).toMatchObject({ toldAs: null });
});

it("told under another name is not undone while a later one corrects or withdraws what it told", async () => {
  const withdrawal = (date: string, cylinder: number | null = null) =>
    judgementFact({ unit: "V-1", date, test: known.test, cylinder, verdict: "withdrawn" });
  const second = test({ date: "2026-03-02" });
  const moved = test({ readings: [reading(3, 1190)] });
  const renamed = { tests: [second], judgements: [withdrawal(known.date)], origin: "form" } as const;
  const otherCylinder = { tests: [moved], judgements: [withdrawal(known.date, 2)], origin: "form" } as const;
  const corrected = { ...second, readings: [reading(1, 1150)] };
  const cases = [
    // Another day once more, another figure, another meter, another cylinder.
    [renamed, { tests: [test({ date: "2026-03-04" })], judgements: [withdrawal(second.date)], origin: "form" }, false],
    [renamed, { tests: [corrected], origin: "form" }, false],
    [renamed, { tests: [{ ...second, meter: 1001 }], origin: "correction" }, false],
    [
      renamed,
      { tests: [{ ...second, readings: [reading(4, 1190)] }], judgements: [withdrawal(second.date, 2)] },
      false,
    ],
    [otherCylinder, { tests: [test({ readings: [reading(3, 1100)] })], origin: "form" }, false],
    // What tells of other readings, repeats, or adds, leaves nothing twice.
    [otherCylinder, { tests: [test({ readings: [reading(1, 1100)] })], origin: "form" }, true],
    [renamed, { tests: [second] }, true],
    [{ tests: [second] }, { tests: [corrected] }, true],
  ] as const;
  for (const [place, [first, then, isUndone]] of cases.entries()) {
    const store = await temporaryStore();
    await take(store, { tests: [known] });
    const [importId, later] = [await take(store, first), await take(store, then)];
    const outcome = await undoImport(store, importId, { by, at });
    expect(outcome.ok, `case ${place}`).toBe(isUndone);
    if (outcome.ok) continue;
    expect(outcome.error).toEqual({ code: "built-on", importId, later: "tests.csv" });
    expect((await undoImport(store, later, { by, at })).ok).toBe(true);
    expect((await undoImport(store, importId, { by, at })).ok).toBe(true);
  }
});
