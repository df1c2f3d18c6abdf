import { describe, expect, it } from "vitest";
import { layoutOfRow } from "@/app/_jobs/file-layout.ts";
import { keepLayout } from "@/app/_jobs/kept-layouts.ts";
import { openQuestions } from "@/app/_jobs/open-questions.ts";
import { readAgain } from "@/app/_jobs/read-again.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { allIssues, type ImportDetail } from "@/db/imports.ts";
import type { Store } from "@/db/store.ts";
import { type Layout, layoutSchema } from "@/lib/layout/layout.ts";
import { act, modelsFile, newStore, source } from "./made-up-files.ts";

/** Files that the contract's columns do not read, and what a person can do with each. */

const ofFile = (detail: ImportDetail, name = "sheet.csv") => {
  const file = detail.files.find((one) => one.name === name);
  if (file === undefined) throw new Error(`${name} is no file of the import`);
  return { file, told: layoutOfRow(file), open: openQuestions(file) };
};
async function refusedIn(store: Store, detail: ImportDetail) {
  const found: { readonly code: string; readonly words: string }[] = [];
  for await (const issues of allIssues(store, detail.id, { severity: "refused" })) found.push(...issues);
  return found;
}
const stage = (store: Store, text: string) => stageImport(store, [modelsFile, source("sheet.csv", text)], act);

/** No heading that anyone knows; `when` is told by its cells alone. */
const strange = `List of the yard;;;;
who;when;far;north;south
N-1;24.03.2026;120000;11,5;11,7
`;
const mapped = (layout: Layout): Layout => {
  const is = [
    { is: "field", field: "unit" },
    { is: "field", field: "test_date" },
    { is: "field", field: "meter" },
    { is: "reading", cylinder: 1, measure: "compression-dry", unit: "bar" },
    { is: "reading", cylinder: 2, measure: "compression-dry", unit: "bar" },
  ];
  return layoutSchema.parse({
    ...layout,
    columns: layout.columns.map(({ header }, i) => ({ header, ...is[i] })),
    constants: { meter_unit: "km", engine_model: "petrol-4-a" },
    dateOrder: "day-first",
    decimalSign: ",",
  });
};

describe("a file in which no headings are found", () => {
  it("waits with its first rows, has its columns mapped below the row that is chosen, and is known the next time", async () => {
    const store = await newStore();
    const staged = await stage(store, strange);
    expect(ofFile(staged)).toMatchObject({
      told: { suggested: null, headings: null },
      open: [{ code: "no-header" }],
    });
    expect(ofFile(staged).told?.firstRows[1]).toEqual(["who", "when", "far", "north", "south"]);
    const chosen = { "sheet.csv": { headings: { row: 2, rows: 1 as const } } };
    const again = await readAgain(store, staged.id, { ...act, choices: chosen });
    const { told, open } = ofFile(again);
    expect(told?.headings).toEqual({ row: 2, rows: 1 });
    expect(told?.columns.map(({ header }) => header)).toEqual(["who", "when", "far", "north", "south"]);
    expect(open.map(({ code }) => code)).toContain("readings");

    const layout = mapped(told?.suggested as Layout);
    await keepLayout(store, { name: "Yard", layout }, act);
    const layouts = { "sheet.csv": { layout, name: "Yard" } };
    const read = await readAgain(store, again.id, { ...act, choices: {}, layouts });
    expect(ofFile(read)).toMatchObject({ file: { refused: false, newRows: 2 }, told: { by: "chosen" }, open: [] });

    const next = await stage(store, strange.replace("24.03", "25.04"));
    expect(ofFile(next)).toMatchObject({ file: { newRows: 2 }, told: { by: "kept", name: "Yard" } });
  });

  it("takes headings of two rows", async () => {
    const store = await newStore();
    const staged = await stage(store, ";;;dry;\nwho;when;far;n;s\nN-1;24.03.2026;120000;11,5;11,7\n");
    const choices = { "sheet.csv": { headings: { row: 2, rows: 2 as const } } };
    const again = await readAgain(store, staged.id, { ...act, choices });
    expect(ofFile(again).told?.columns.map(({ header }) => header)).toEqual(["who", "when", "far", "dry n", "dry s"]);
  });
});

describe("a file that waits for an answer", () => {
  it("says what is asked, and not that its first row names no columns", async () => {
    const store = await newStore();
    const staged = await stage(store, "Truck;Tested;Odometer (km);Leak cyl 1 %\nN-1;03.04.2026;120000;12,5\n");
    expect(await refusedIn(store, staged)).toMatchObject([
      { code: "layout-open", words: expect.stringContaining("whether the day or the month comes first") },
    ]);
  });

  it("is none where it is a list of another kind that lacks a column", async () => {
    const store = await newStore();
    const staged = await stage(store, "unit,repair_date,meter,found\nN-1,2026-03-01,120000,piston\n");
    expect(ofFile(staged)).toMatchObject({ told: null, open: [] });
    expect(await refusedIn(store, staged)).toMatchObject([{ code: "columns-missing" }]);
  });
});

const header = "unit,engine_model,test_date,meter,meter_unit,test,cylinder,value,value_unit,supply";
const contract = (...rows: readonly string[]) => [header, ...rows, ""].join("\n");

describe("a file with the contract's headings", () => {
  it("has no layout where its cells are the contract's, nor where they are wrong in any writing", async () => {
    const store = await newStore();
    const good = "N-1,petrol-4-a,2026-03-24,120000,km,compression-dry,1,1200,kPa,";
    const wrong = "N-1,petrol-4-a,2026-03-24,120000,km,compression-dry,2,seized,kPa,";
    const staged = await stage(store, contract(good, wrong));
    expect(ofFile(staged)).toMatchObject({ file: { newRows: 1, refusedRows: 1 }, told: null });
  });

  it("with cells as people write them is read by the contract, and offered to a layout", async () => {
    const store = await newStore();
    const staged = await stage(
      store,
      contract(
        'N-1,petrol-4-a,2026-03-24,"120,000.0",km,compression-dry,1,175psi,kPa,',
        "N-1,petrol-4-a,2026-03-24,120000,km,compression-dry,2,1180,kPa,",
        "N-1,petrol-4-a,46105,120000,km,leak-down,1,76/80,psi,",
        "N-1,petrol-4-a,2026-03-24,120000,km,leak-down,2,12 %,%,",
      ),
    );
    const { file, told, open } = ofFile(staged);
    expect(file).toMatchObject({ refused: false, newRows: 1, refusedRows: 3 });
    expect(told).toMatchObject({ by: "contract", layout: null, questions: [] });
    expect(open).toEqual([]);
    const layouts = { "sheet.csv": { layout: told?.suggested as Layout, name: null } };
    const again = await readAgain(store, staged.id, { ...act, choices: {}, layouts });
    expect(ofFile(again)).toMatchObject({ file: { newRows: 4, refusedRows: 0 }, told: { by: "chosen" } });
  });

  it("asks what its cells leave open, and guesses nothing", async () => {
    const store = await newStore();
    const row = (date: string, value: string) => `N-1,petrol-4-a,${date},120000,km,compression-dry,1,${value},kPa,`;
    const staged = await stage(store, contract(row("03/04/2026", '"1,250"')));
    const { told } = ofFile(staged);
    expect(told?.questions.map(({ code }) => code)).toContain("date-order");
    expect(told?.suggested?.dateOrder).toBeNull();
  });

  it("is offered to the kept layout of its headings", async () => {
    const store = await newStore();
    const text = contract("N-1,petrol-4-a,24/03/2026,120000,km,compression-dry,1,175psi,psi,");
    const first = ofFile(await stage(store, text)).told;
    await keepLayout(store, { name: "Psi", layout: first?.suggested }, act);
    expect(ofFile(await stage(store, text)).told).toMatchObject({ by: "contract", name: "Psi" });
  });

  it("is long where a row has its cylinder and value, whatever columns stand beside them", async () => {
    const store = await newStore();
    const more = Array.from({ length: 2_000 }, (_, i) => `c${i}`).join(",");
    const staged = await stage(
      store,
      `${header},${more}\nN-1,petrol-4-a,2026-03-24,120000,km,compression-dry,1,1200,kPa\n`,
    );
    expect(ofFile(staged)).toMatchObject({ file: { kind: "tests-long", newRows: 1, refusedRows: 0 } });
  });
});
