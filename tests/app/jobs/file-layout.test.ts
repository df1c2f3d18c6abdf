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

  /** A yard's sheet, read by layouts that were kept of one like it. */
  const kept = async (layouts: Record<string, Partial<Layout>>, rows: string, about = "Hours") => {
    const store = await newStore();
    const sheet = (body: string) =>
      source("sheet.csv", `Truck;Engine model;Tested;${about};Dry cyl 1 kPa;Leak cyl 1 %\n${body}`);
    const { told } = ofFile(
      await stageImport(store, [modelsFile, sheet("N-1;petrol-4-a;2026-03-04;980;1200;9\n")], act),
    );
    for (const [name, more] of Object.entries(layouts)) {
      expect((await keepLayout(store, { name, layout: { ...(told?.suggested as Layout), ...more } }, act)).ok).toBe(
        true,
      );
    }
    return ofFile(await stageImport(store, [modelsFile, sheet(rows)], act)).told;
  };

  it("is not read by a kept layout whose order of dates is not its own", async () => {
    const rows = "N-1;petrol-4-a;03/25/2026;980;1200;9\nN-1;petrol-4-a;04/05/2026;990;1190;9\n";
    const told = await kept({ "Yard sheet": { dateOrder: "day-first" } }, rows);
    expect(told).toMatchObject({
      by: "kept",
      name: "Yard sheet",
      layout: null,
      suggested: { dateOrder: "month-first" },
    });
    expect(told?.questions).toMatchObject([{ code: "date-order", needed: true, likely: "month-first" }]);
    expect(told?.questions[0]?.words).toMatch(/"Yard sheet" the day .* the month .* 03\/25\/2026/);
  });

  it("is not read by a kept layout whose decimal sign is not its own, and gives it what it does not say", async () => {
    const rows = "N-1;petrol-4-a;25/03/2026;980,5;1.200,5;9\n";
    const told = await kept({ "Yard sheet": { decimalSign: "." } }, rows);
    expect(told?.layout).toBeNull();
    expect(told?.questions.map(({ code }) => code)).toEqual(["decimal-sign", "decimal-sign"]);
    const open = await kept({ "Yard sheet": {} }, rows);
    expect(open).toMatchObject({ by: "kept", questions: [], layout: { dateOrder: "day-first" } });
  });

  it.each([
    ["dates that nothing tells apart", {}, "N-1;petrol-4-a;03/04/2026;980;1200;9\n", ["date-order"]],
    [
      "dates that a spreadsheet turned",
      { dateOrder: "day-first" },
      "N-1;petrol-4-a;25/03/2026;980;1200;9\nN-1;petrol-4-a;2026-04-03;990;1200;9\n",
      ["dates-turned"],
    ],
    [
      "dates of both orders",
      { dateOrder: "day-first" },
      "N-1;petrol-4-a;25/03/2026;980;1200;9\nN-1;petrol-4-a;03/25/2026;990;1200;9\n",
      ["dates-contradict"],
    ],
    ["hours of three decimals", { decimalSign: "." }, "N-1;petrol-4-a;2026-03-25;4.180;1200;9\n", ["decimal-sign"]],
    ["what was held", {}, "N-1;petrol-4-a;2026-03-25;980;1200;92\n", ["leak-sense"]],
    [
      "shares of 1",
      {},
      "N-1;petrol-4-a;2026-03-25;980;1200;0,92\nN-1;petrol-4-a;2026-03-26;981;1200;0,09\nN-1;petrol-4-a;2026-03-27;982;1200;0,1\n",
      ["share"],
    ],
  ] as const)("with %s is asked, though a layout is kept", async (_title, more, rows, codes) => {
    const told = await kept({ "Yard sheet": more }, rows);
    expect(told?.layout).toBeNull();
    expect(told?.questions.map(({ code }) => code)).toEqual(codes);
  });

  it("is asked for the unit, date and meter that were said of the file for which a layout was kept", async () => {
    const store = await newStore();
    const sheet = (leak: number) => source("sheet.csv", `Pot;Leak %\n1;${leak}\n2;${leak + 1}\n`);
    const { told } = ofFile(await stageImport(store, [modelsFile, sheet(9)], act));
    const said = { unit: "N-1", test_date: "2026-03-01", meter: "980" };
    const layout = { ...told?.suggested, constants: { ...said, meter_unit: "h", engine_model: "petrol-4-a" } };
    expect((await keepLayout(store, { name: "Yard sheet", layout }, act)).ok).toBe(true);
    const { told: next } = ofFile(await stageImport(store, [modelsFile, sheet(11)], act));
    expect(next).toMatchObject({ by: "kept", name: "Yard sheet", layout: null, suggested: { constants: said } });
    expect(next?.questions).toMatchObject([
      { code: "unit", needed: true, likely: "N-1" },
      { code: "test-date", needed: true, likely: "2026-03-01" },
      { code: "meter", needed: true, likely: "980" },
    ]);
    expect(next?.questions[1]?.words).toMatch(/"Yard sheet" the date of the test is "2026-03-01"/);
  });

  it("is asked what was held where its cells tell the per cent, though a layout is kept", async () => {
    const store = await newStore();
    const sheet = (cells: string) =>
      source("sheet.csv", `Truck;Tested;Hours;Leak cyl 1\nN-1;2026-03-04;980;${cells}\n`);
    const { told } = ofFile(await stageImport(store, [modelsFile, sheet("9 %")], act));
    expect((await keepLayout(store, { name: "Yard sheet", layout: told?.suggested as Layout }, act)).ok).toBe(true);
    const { told: next } = ofFile(await stageImport(store, [modelsFile, sheet("92 %")], act));
    expect(next).toMatchObject({ by: "kept", layout: null, questions: [{ code: "leak-sense", needed: true }] });
  });

  it("of which several layouts are kept is read by the one that fits, and asked where more do", async () => {
    const both = { "East yard": { dateOrder: "month-first" }, "North yard": { dateOrder: "day-first" } } as const;
    const open = await kept(both, "N-1;petrol-4-a;03/04/2026;980;1200;9\n");
    expect(open).toMatchObject({ layout: null, name: null, questions: [{ code: "kept-layouts", needed: true }] });
    expect(open?.questions[0]?.words).toMatch(/"East yard" and "North yard"/);
    expect(await kept(both, "N-1;petrol-4-a;25/04/2026;980;1200;9\n")).toMatchObject({
      name: "North yard",
      questions: [],
    });
    const same = { "East yard": both["East yard"], "West yard": both["East yard"] };
    expect(await kept(same, "N-1;petrol-4-a;03/04/2026;980;1200;9\n")).toMatchObject({
      name: "East yard",
      questions: [],
    });
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
