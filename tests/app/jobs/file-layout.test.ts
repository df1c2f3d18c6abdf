import { describe, expect, it } from "vitest";
import { layoutOfRow } from "@/app/_jobs/file-layout.ts";
import { keepLayout } from "@/app/_jobs/kept-layouts.ts";
import { readAgain } from "@/app/_jobs/read-again.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { allIssues, type ImportDetail } from "@/db/imports.ts";
import type { Store } from "@/db/store.ts";
import type { Layout } from "@/lib/layout/layout.ts";
import { act, csv, history, modelsFile, newStore, source } from "./made-up-files.ts";

/** A workshop's own sheet: everything is told but, in the second, which of day and month comes first. */
const own = (date: string) =>
  source(
    "sheet.csv",
    `Truck;Engine model;Tested;Odometer (km);Leak cyl 1 %;Leak cyl 2 %;Leak cyl 3 %;Leak cyl 4 %
N-1;petrol-4-a;${date};120000;12,5;10;9;11
`,
  );

const ofFile = (detail: ImportDetail, name = "sheet.csv") => {
  const file = detail.files.find((one) => one.name === name);
  if (file === undefined) throw new Error(`${name} is no file of the import`);
  return { file, told: layoutOfRow(file) };
};
const stage = (store: Store, date: string) => stageImport(store, [modelsFile, own(date)], act);

describe("a file with columns of its own", () => {
  it("is read as its headings and cells tell where they leave nothing open", async () => {
    const store = await newStore();
    const staged = await stage(store, "24.03.2026");
    const { file, told } = ofFile(staged);
    expect(told).toMatchObject({ by: "suggested", name: null });
    expect(told?.layout).not.toBeNull();
    expect(file).toMatchObject({ refused: false, kind: "tests-long", newRows: 4 });
  });

  it("waits where it leaves something open, and is read anew as a person says", async () => {
    const store = await newStore();
    const staged = await stage(store, "03.04.2026");
    const { file, told } = ofFile(staged);
    expect(file.refused).toBe(true);
    expect(told?.layout).toBeNull();
    expect(told?.questions.some(({ code, needed }) => code === "date-order" && needed)).toBe(true);
    const layout: Layout = { ...(told?.suggested as Layout), dateOrder: "day-first" };
    const again = await readAgain(store, staged.id, {
      ...act,
      choices: {},
      layouts: { "sheet.csv": { layout, name: null } },
    });
    expect(ofFile(again)).toMatchObject({
      file: { refused: false, newRows: 4 },
      told: { by: "chosen", name: null, layout },
    });
    // What was chosen goes on when the files are read once more for another reason.
    const third = await readAgain(store, again.id, { ...act, choices: { "sheet.csv": { delimiter: "semicolon" } } });
    expect(ofFile(third).told).toMatchObject({ by: "chosen", layout: { dateOrder: "day-first" } });
  });

  it("is recognised by its header where a layout of it was kept", async () => {
    const store = await newStore();
    const { told } = ofFile(await stage(store, "03.04.2026"));
    const layout = { ...(told?.suggested as Layout), dateOrder: "month-first" };
    expect((await keepLayout(store, { name: "Yard sheet", layout }, act)).ok).toBe(true);
    const { file, told: next } = ofFile(await stage(store, "03.04.2026"));
    expect(next).toMatchObject({ by: "kept", name: "Yard sheet", layout: { dateOrder: "month-first" } });
    expect(file.newRows).toBe(4);
  });

  it("has no proposals to click, for they are said in the contract's columns", async () => {
    const store = await newStore();
    const staged = await stageImport(
      store,
      [modelsFile, source("good.csv", csv(history("N-1"))), own("24.03.2026")],
      act,
    );
    const issues = [];
    for await (const some of allIssues(store, staged.id)) issues.push(...some);
    expect(issues.filter(({ file, proposals }) => file === "sheet.csv" && (proposals?.length ?? 0) > 0)).toEqual([]);
  });
});

it("a file of the contract needs no layout", async () => {
  const store = await newStore();
  const staged = await stageImport(store, [modelsFile, source("good.csv", csv(history("N-1")))], act);
  expect(ofFile(staged, "good.csv").told).toBeNull();
  expect(ofFile(staged, "models.json").told ?? null).toBeNull();
});
