import { expect, it } from "vitest";
import { putRight } from "@/app/_jobs/put-right.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { importIssues } from "@/db/imports.ts";
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
