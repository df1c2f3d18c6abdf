import { describe, expect, it } from "vitest";
import { importErrorWords } from "@/app/_jobs/import-words.ts";
import { recordFacts, testOf } from "@/app/_jobs/record-facts.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { undoImport } from "@/app/_jobs/undo-import.ts";
import { unitReport } from "@/db/assessments.ts";
import { type ImportDetail, importIssues } from "@/db/imports.ts";
import type { Store } from "@/db/store.ts";
import type { JudgementFact, TestFact } from "@/lib/schema/facts.ts";
import { judgementFact } from "../../lib/sealing/facts.ts";
import { act, csv, history, line, modelsFile, newStore, source, take } from "./made-up-files.ts";

/** Rows under the name of a test that a person withdrew: the file that told it first, or a true test of that day. */

const rowsAt = (unit: string, date: string, meter: number, value = 9): readonly string[] =>
  [1, 2, 3, 4].map((cylinder) => line({ unit, date, meter, cylinder, value: value + cylinder }));
const told = async (store: Store, { id }: ImportDetail) =>
  (await importIssues(store, id, { offset: 0, limit: 50 })).issues.map((one) => [one.severity, one.code, one.line]);
const named = (unit: string, date: string) =>
  ({ unit, date, test: "leak-down", attempt: 1, instrument: null }) as const;
const withdraws = (unit: string, date: string, more: Partial<JudgementFact> = {}) =>
  judgementFact({ ...named(unit, date), verdict: "withdrawn", judgedBy: act.by, ...more });

/** Tells a test again under another name, or as another cylinder, and withdraws the old one. */
async function toldAgain(store: Store, test: TestFact, as: Partial<TestFact>, cylinder: number | null = null) {
  const reason = "told again as leak-down of 1 Mar 2026: wrong day";
  const judgements = [withdraws(test.unit, test.date, { cylinder, reason })];
  const told = { tests: [{ ...test, ...as }], judgements };
  return recordFacts(store, { title: `corrected to ${as.date}`, told }, act);
}

describe("a true test under the name of a withdrawn one", () => {
  const first = csv([...history("N-1"), ...rowsAt("N-1", "2026-03-03", 4000)]);
  const other = rowsAt("N-1", "2026-03-03", 4000, 15);

  it("is pointed out, once, with what was withdrawn and what to do", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", first)]);
    await toldAgain(store, (await testOf(store, named("N-1", "2026-03-03")))!.test, { date: "2026-03-01" });
    const staged = await stageImport(store, [source("b.csv", csv(other))], act);
    const { issues } = await importIssues(store, staged.id, { offset: 0, limit: 9 });
    expect(issues.map(({ words }) => words)).toEqual([
      "line 2: the leak-down test of N-1 on 2026-03-03 was withdrawn by A. Fitter (told again as leak-down of 1 Mar 2026: wrong day), so what is said otherwise of it here counts nowhere; if it was measured all the same, give it as another attempt, or undo first what withdrew it",
    ]);
    expect(staged.warnedRows).toBe(1);
    // Another meter makes another test of all its readings.
    const moved = await stageImport(store, [source("c.csv", csv(rowsAt("N-1", "2026-03-03", 4010)))], act);
    expect(await told(store, moved)).toEqual([["warning", "withdrawn", 2]]);
    const attempt = other.map((row) => `${row},2`).join("\n");
    const header = csv([]).trim();
    const again = await stageImport(store, [source("d.csv", `${header},attempt\n${attempt}\n`)], act);
    expect(await told(store, again)).toEqual([]);
    expect(again.newRows).toBe(4);
  });

  it("is not, where it says what is on file, or comes with a judgement of its own", async () => {
    const store = await newStore();
    await take(store, [modelsFile, source("a.csv", first)]);
    await toldAgain(store, (await testOf(store, named("N-1", "2026-03-03")))!.test, { date: "2026-03-01" });
    expect(await told(store, await stageImport(store, [source("a.csv", first)], act))).toEqual([]);
    const header = "unit,test_date,test,verdict,reason,judged_by";
    const back = `${header}\nN-1,2026-03-03,leak-down,none,it was right,A. Fitter\n`;
    const both = await stageImport(store, [source("back.csv", back), source("b.csv", csv(other))], act);
    expect(await told(store, both)).toEqual([]);
  });

  it("is pointed out of the cylinder that lost its reading to another, and of no other", async () => {
    const store = await newStore();
    const three = rowsAt("N-1", "2026-03-03", 4000).slice(0, 3);
    await take(store, [modelsFile, source("a.csv", csv([...history("N-1"), ...three]))]);
    const { test } = (await testOf(store, named("N-1", "2026-03-03")))!;
    await toldAgain(store, test, { readings: [{ ...test.readings[2]!, cylinder: 4 }] }, 3);
    const staged = await stageImport(store, [source("b.csv", csv(other.slice(1, 3)))], act);
    const { issues } = await importIssues(store, staged.id, { offset: 0, limit: 9 });
    expect(issues.map(({ words }) => words)).toEqual([
      expect.stringMatching(/^line 3: cylinder 3 of the leak-down test of N-1 on 2026-03-03 was withdrawn/),
    ]);
    expect(await told(store, await stageImport(store, [source("a2.csv", csv(three))], act))).toEqual([]);
  });
});

describe("the file that told a withdrawn test first", () => {
  it("comes again with new rows, which its meter does not refuse, nor does it look odd", async () => {
    const store = await newStore();
    const first = [...history("N-1"), ...history("N-2"), ...rowsAt("N-1", "2026-03-03", 90_000)];
    await take(store, [modelsFile, source("a.csv", csv(first))]);
    await toldAgain(store, (await testOf(store, named("N-1", "2026-03-03")))!.test, { unit: "N-2" });
    const more = csv([...first, ...rowsAt("N-1", "2026-04-03", 3000)]);
    const staged = await stageImport(store, [source("a.csv", more)], act);
    expect(staged).toMatchObject({ newRows: 4, changedRows: 0, refusedRows: 0 });
    expect(await told(store, staged)).toEqual([]);
  });
});

it("the first of two corrections of a test is undone after the second, and says so", async () => {
  const store = await newStore();
  await take(store, [modelsFile, source("a.csv", csv(rowsAt("N-1", "2026-03-03", 4000)))]);
  const testAt = async (date: string) => (await testOf(store, named("N-1", date)))!.test;
  const first = await toldAgain(store, await testAt("2026-03-03"), { date: "2026-03-02" });
  const second = await toldAgain(store, await testAt("2026-03-02"), { date: "2026-03-01" });
  const outcome = await undoImport(store, first.import, act);
  expect(!outcome.ok && importErrorWords(outcome.error)).toBe(
    'A later import, "corrected to 2026-03-01", corrects what this one told. Undo that one first, or a test would count twice.',
  );
  const counting = async () => (await unitReport(store, "N-1"))?.tests.map(({ date }) => date);
  expect(await counting()).toEqual(["2026-03-01"]);
  for (const { import: id } of [second, first]) expect((await undoImport(store, id, act)).ok).toBe(true);
  expect(await counting()).toEqual(["2026-03-03"]);
});
