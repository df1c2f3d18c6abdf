import { expect, it } from "vitest";
import { putRight } from "@/app/_jobs/put-right.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { importIssues, listImports } from "@/db/imports.ts";
import type { Store } from "@/db/store.ts";
import { act, csv, history, modelsFile, newStore, source } from "./made-up-files.ts";

const refusedOf = async (store: Store, importId: string) =>
  (await importIssues(store, importId, { offset: 0, limit: 50, severity: "refused" })).issues;
const last = (text: string) => history("N-1").map((row, i, all) => (i === all.length - 1 ? text : row));
const rows = history("N-1");
const end = (rows.at(-1) ?? "").split(",");
/** The last row with another cell at a place. */
const withCell = (place: number, value: string) => last(end.map((cell, i) => (i === place ? value : cell)).join(","));

it("reads the refused cell as a person says, and keeps the file as it was given", async () => {
  const store = await newStore();
  const staged = await stageImport(store, [modelsFile, source("a.csv", csv(withCell(7, "1o.5")))], act);
  expect(staged).toMatchObject({ newRows: rows.length, refusedRows: 1 });
  const [issue] = await refusedOf(store, staged.id);
  expect(issue).toMatchObject({ column: "value", value: "1o.5" });
  const after = await putRight(store, staged.id, { ...act, issue: issue?.id ?? 0, value: " 10.5 " });
  expect(after).toMatchObject({ newRows: rows.length + 1, refusedRows: 0 });
  expect(after.files.find(({ name }) => name === "a.csv")?.sha256).toBe(
    staged.files.find(({ name }) => name === "a.csv")?.sha256,
  );
});

it("judges the new cell like any other, and lets it be put right again", async () => {
  const store = await newStore();
  const staged = await stageImport(store, [modelsFile, source("a.csv", csv(withCell(2, "2026-02-31")))], act);
  const [issue] = await refusedOf(store, staged.id);
  const worse = await putRight(store, staged.id, { ...act, issue: issue?.id ?? 0, value: "2026-02-30" });
  const [again] = await refusedOf(store, worse.id);
  expect(again).toMatchObject({ column: "test_date", value: "2026-02-30" });
  const right = await putRight(store, worse.id, { ...act, issue: again?.id ?? 0, value: "2026-02-28" });
  expect(right.refusedRows).toBe(0);
});

it("puts a cell right that is too long to be told whole, in files of the contract and in others", async () => {
  const long = "x".repeat(600);
  const own = (date: string, value: string) =>
    `Unit,Date,Hours,Cyl 1 leak %\nN-1,2026-02-01,2900,9\nN-1,${date},3000,${value}\n`;
  const cases = [
    [csv(withCell(7, long)), "10.5"],
    [own("2026-03-01", long), "10.5"],
    [own(long, "10.5"), "2026-03-01"],
  ] as const;
  for (const [text, value] of cases) {
    const store = await newStore();
    const units = source("units.csv", "unit,engine_model,meter_unit\nN-1,petrol-4-a,h\n");
    const staged = await stageImport(store, [modelsFile, units, source("a.csv", text)], act);
    const [issue] = await refusedOf(store, staged.id);
    expect(issue?.value?.length).toBeLessThan(500);
    const after = await putRight(store, staged.id, { ...act, issue: issue?.id ?? 0, value });
    expect(after.refusedRows).toBe(0);
  }
});

it("reads several cells at once, of one row and of several files", async () => {
  const store = await newStore();
  const wrong = end.map((cell, i) => (i === 7 ? "1o.5" : i === 2 ? "2026-02-31" : cell)).join(",");
  const files = [
    modelsFile,
    source("a.csv", csv(last(wrong))),
    source("b.csv", csv(withCell(7, "x").map((row) => row.replace("N-1", "N-2")))),
  ];
  const staged = await stageImport(store, files, act);
  const refused = await refusedOf(store, staged.id);
  const saying: Readonly<Record<string, string>> = { "1o.5": "10.5", "2026-02-31": end[2] ?? "", x: "11" };
  const [first, ...also] = refused.map(({ id, value }) => ({ issue: id, value: saying[value ?? ""] ?? "" }));
  const after = await putRight(store, staged.id, { ...act, issue: 0, value: "", ...first, also });
  expect(refused).toHaveLength(3);
  expect(after.refusedRows).toBe(0);
});

it("says why where there is no such cell", async () => {
  const store = await newStore();
  const staged = await stageImport(store, [modelsFile, source("a.csv", "nothing,known\n1,2\n")], act);
  const [issue] = await refusedOf(store, staged.id);
  await expect(putRight(store, staged.id, { ...act, issue: issue?.id ?? 0, value: "x" })).rejects.toThrow(
    "This cannot be put right here. Mend the file and import it again.",
  );
  await expect(putRight(store, staged.id, { ...act, issue: 999_999, value: "x" })).rejects.toThrow(
    "This row is not there any more. Look at the import again.",
  );
});

it("leaves one import that waits where two windows put cells right at once", async () => {
  const store = await newStore();
  const broken = rows.map((row, i) => (i >= rows.length - 2 ? row.replace(/,[\d.]+,%/, ",1o,%") : row));
  const staged = await stageImport(store, [modelsFile, source("a.csv", csv(broken))], act);
  const issues = await refusedOf(store, staged.id);
  expect(issues).toHaveLength(2);
  const both = await Promise.allSettled(
    issues.map(({ id }) => putRight(store, staged.id, { ...act, issue: id, value: "10" })),
  );
  const refused = both.filter((one) => one.status === "rejected");
  expect(refused.map(({ reason }) => reason.message)).toEqual([
    expect.stringMatching(/in another window.*Load the page again/),
  ]);
  const waiting = (await listImports(store)).filter(({ state }) => state === "staged");
  expect(waiting.map(({ refusedRows }) => refusedRows)).toEqual([1]);
  // What stands is what the first window sees.
  expect(both.find((one) => one.status === "fulfilled")?.value.id).toBe(waiting[0]?.id);
});
