import { describe, expect, it } from "vitest";
import { putRight } from "@/app/_jobs/put-right.ts";
import { readAgain } from "@/app/_jobs/read-again.ts";
import { refusedRows } from "@/app/_jobs/refused-rows.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { takeProposal } from "@/app/_jobs/take-proposal.ts";
import { type ImportDetail, importIssues } from "@/db/imports.ts";
import { stagedRows } from "@/db/staged-rows.ts";
import type { Store } from "@/db/store.ts";
import { csvLine } from "@/lib/outtake/csv.ts";
import { act, modelsFile, newStore, source, take } from "./made-up-files.ts";

/** Files that are read by a layout, put right as contract files are: in their own columns, the bytes as they were given. */

const head = "Truck;Tested;Odometer (km);Leak cyl 1 %;Leak cyl 2 %;Leak cyl 3 %;Leak cyl 4 %";
const sheet = (...rows: readonly string[]) => source("own.csv", ["Workshop results", head, ...rows, ""].join("\n"));
const units = source("units.csv", "unit,engine_model,meter_unit\nN-1,petrol-4-a,km\nN-2,petrol-4-a,km\n");

async function storeWith(...rows: readonly string[]): Promise<Store> {
  const store = await newStore();
  const known = source("known.csv", ["Workshop results", head, ...rows, ""].join("\n"));
  await take(store, rows.length === 0 ? [modelsFile, units] : [modelsFile, units, known]);
  return store;
}
const issuesOf = async (store: Store, { id }: ImportDetail) =>
  (await importIssues(store, id, { offset: 0, limit: 100 })).issues;
const refusedOf = async (store: Store, detail: ImportDetail) =>
  (await issuesOf(store, detail)).filter(({ severity }) => severity === "refused");
const testsOf = async (store: Store, { id }: ImportDetail, unit = "N-1") =>
  (await stagedRows(store, id, { units: [unit], takeChanges: true })).tests.map(({ date, meter, test, readings }) => [
    date,
    meter,
    test,
    ...readings.map(({ cylinder, value, valueUnit }) => `${cylinder}: ${value} ${valueUnit}`),
  ]);
const ofFile = ({ files }: ImportDetail) => files.find(({ name }) => name === "own.csv");

async function offerOf(store: Store, detail: ImportDetail, kind: string) {
  const found = (await issuesOf(store, detail)).flatMap(({ id, proposals }) =>
    (proposals ?? []).map((proposal, i) => ({ issue: id, proposal: i, ...proposal })),
  );
  const offer = found.find((one) => one.kind === kind);
  if (offer === undefined) throw new Error(`${kind} is not offered, but ${found.map((one) => one.kind).join()}`);
  return offer;
}
const takeOffer = async (store: Store, detail: ImportDetail, kind: string) =>
  takeProposal(store, detail.id, { ...act, ...(await offerOf(store, detail, kind)) });

describe("a refused cell of a file with columns of its own", () => {
  it("is named by its heading and text, and read as it is typed there, decimal comma and all", async () => {
    const store = await storeWith();
    const staged = await stageImport(store, [sheet("N-1;24.03.2026;120000;12,5;1o;9;11")], act);
    const [issue, other] = await refusedOf(store, staged);
    expect(other).toBeUndefined();
    expect(issue).toMatchObject({ line: 3, column: "Leak cyl 2 %", value: "1o" });
    const after = await putRight(store, staged.id, { ...act, issue: issue?.id ?? 0, value: "10,5" });
    expect(after).toMatchObject({ newRows: 4, refusedRows: 0 });
    expect(await testsOf(store, after)).toEqual([
      ["2026-03-24", 120000, "leak-down", "1: 12.5 %", "2: 10.5 %", "3: 9 %", "4: 11 %"],
    ]);
    expect(ofFile(after)?.sha256).toBe(ofFile(staged)?.sha256);
  });

  it("can be put right again, where the first try was none", async () => {
    const store = await storeWith();
    const staged = await stageImport(store, [sheet("N-1;24.03.2026;120000;12,5;1o;9;11")], act);
    const [issue] = await refusedOf(store, staged);
    const worse = await putRight(store, staged.id, { ...act, issue: issue?.id ?? 0, value: "ten" });
    const [again] = await refusedOf(store, worse);
    expect(again).toMatchObject({ column: "Leak cyl 2 %", value: "ten" });
    const right = await putRight(store, worse.id, { ...act, issue: again?.id ?? 0, value: "10" });
    expect(right).toMatchObject({ newRows: 4, refusedRows: 0 });
  });

  it("is found where other rows refuse it, and typed as the file writes its figures", async () => {
    const store = await storeWith("N-1;24.03.2026;120.000;12,5;10;9;11");
    const staged = await stageImport(store, [sheet("N-1;24.05.2026;1.000;12,5;10;9;10,5")], act);
    const [issue] = await refusedOf(store, staged);
    expect(issue).toMatchObject({ code: "meter-backwards", column: "Odometer (km)", value: "1000" });
    expect(issue?.words).toMatch(/^line 3, Odometer \(km\): /);
    const after = await putRight(store, staged.id, { ...act, issue: issue?.id ?? 0, value: "121.000" });
    expect(after).toMatchObject({ newRows: 4, refusedRows: 0 });
    expect((await testsOf(store, after))[0]?.[1]).toBe(121_000);
  });

  it("holds for the rows below it where cells are merged", async () => {
    const store = await storeWith();
    const rows = [
      "Machine,Date,Km,Cyl No,Leak %",
      "N-1,19-05-2026,7oo,1,16",
      ",,,2,15",
      ",,,3,16",
      "N-2,20-05-2026,700,1,15",
    ];
    const staged = await stageImport(store, [source("own.csv", `${rows.join("\n")}\n`)], act);
    const refused = await refusedOf(store, staged);
    expect(refused.map(({ line, column, value }) => [line, column, value])).toEqual(
      [2, 3, 4].map((line) => [line, "Km", "7oo"]),
    );
    const after = await putRight(store, staged.id, { ...act, issue: refused[0]?.id ?? 0, value: "700" });
    expect(after).toMatchObject({ newRows: 4, refusedRows: 0 });
  });
});

describe("a proposal to a file with columns of its own", () => {
  const known = [
    "N-1;24.01.2025;41.000;9,5;11;12,5;10",
    "N-1;24.05.2025;43.100;9,6;11,2;12,7;10",
    "N-1;24.09.2025;45.000;9,7;11,3;12,8;10",
  ];

  it("reads the meter as it was meant, stays when the file is read again, and leaves its bytes", async () => {
    const store = await storeWith(...known);
    const staged = await stageImport(
      store,
      [sheet("N-1;24.01.2026;42.670;9,9;11,4;13;10", "N-1;24.02.2026;46.950;9,9;11,5;13,5;10,5")],
      act,
    );
    expect(staged).toMatchObject({ newRows: 4, refusedRows: 1 });
    const after = await takeOffer(store, staged, "meter-digits");
    expect(after).toMatchObject({ newRows: 8, refusedRows: 0 });
    expect((await testsOf(store, after)).map(([date, meter]) => [date, meter])).toEqual([
      ["2026-01-24", 46_270],
      ["2026-02-24", 46_950],
    ]);
    expect(ofFile(after)?.sha256).toBe(ofFile(staged)?.sha256);
    const again = await readAgain(store, after.id, { ...act, choices: { "own.csv": { delimiter: "semicolon" } } });
    expect(again).toMatchObject({ newRows: 8, refusedRows: 0 });
  });

  it("reads the unit as the known one, also where the title block tells it", async () => {
    const store = await storeWith(...known);
    const title = ["Unit no: N-01;;Date: 2026-05-11", "Km: 50000;;", "Cyl;Leak %", "1;8", "2;9", ""].join("\n");
    const staged = await stageImport(store, [source("own.csv", title)], act);
    const after = await takeOffer(store, staged, "unit-name");
    expect(after).toMatchObject({ newRows: 2, refusedRows: 0, warnedRows: 0 });
    expect(await testsOf(store, after)).toEqual([["2026-05-11", 50_000, "leak-down", "1: 8 %", "2: 9 %"]]);
  });

  it("turns the cylinders of one test of a row, and not those of the test beside it", async () => {
    const columns =
      "Truck;Tested;Odometer (km);Dry 1 kPa;Dry 2 kPa;Dry 3 kPa;Dry 4 kPa;Leak 1 %;Leak 2 %;Leak 3 %;Leak 4 %";
    const row = (date: string, km: number, dry: string, leak: string) => `N-1;${date};${km};${dry};${leak}`;
    const text = (...rows: readonly string[]) => `${[columns, ...rows].join("\n")}\n`;
    const store = await newStore();
    const first = row("24.03.2025", 41_000, "1200;1190;1100;800", "8;9;10;25");
    await take(store, [modelsFile, units, source("known.csv", text(first))]);
    const second = row("24.03.2026", 61_000, "805;1105;1195;1200", "8;9;10;26");
    const staged = await stageImport(store, [source("own.csv", text(second))], act);
    const after = await takeOffer(store, staged, "cylinder-order");
    expect(await testsOf(store, after)).toEqual([
      ["2026-03-24", 61_000, "compression-dry", "1: 1200 kPa", "2: 1195 kPa", "3: 1105 kPa", "4: 805 kPa"],
      ["2026-03-24", 61_000, "leak-down", "1: 8 %", "2: 9 %", "3: 10 %", "4: 26 %"],
    ]);
  });

  it("reads the pressures of one test in another unit, with the first strokes that are in it", async () => {
    const columns = "Truck;Tested;Odometer (km);Cyl No;First stroke;Dry kPa;Wet psi";
    const rows = (date: string, km: number, cells: readonly string[]) =>
      cells.map((cell, i) => `N-1;${date};${km};${i + 1};${cell}`);
    const text = (all: readonly string[]) => `${[columns, ...all].join("\n")}\n`;
    const store = await newStore();
    const before = rows("24.03.2025", 41_000, ["700;1200;178", "700;1190;177", "690;1180;178", "700;1200;179"]);
    await take(store, [modelsFile, units, source("known.csv", text(before))]);
    const now = rows("24.03.2026", 61_000, ["101;174;178", "101;173;177", "100;172;178", "101;174;179"]);
    const staged = await stageImport(store, [source("own.csv", text(now))], act);
    const after = await takeOffer(store, staged, "pressure-unit");
    const tests = (await stagedRows(store, after.id, { units: ["N-1"], takeChanges: true })).tests;
    expect(tests.map(({ test, readings }) => [test, readings[0]?.value, readings[0]?.valueUnit])).toEqual([
      ["compression-dry", 174, "psi"],
      ["compression-wet", 178, "psi"],
    ]);
  });
});

describe("the refused rows of a file with columns of its own", () => {
  const rowsOf = async (store: Store, detail: ImportDetail) => {
    const rows: (readonly string[])[] = [];
    const file = ofFile(detail);
    if (file !== undefined) for await (const some of refusedRows(store, detail, file)) rows.push(...some);
    return rows;
  };
  const asFile = (rows: readonly (readonly string[])[], wrong: string, right: string) =>
    source("mended.csv", rows.map((row) => csvLine(row.map((cell) => (cell === wrong ? right : cell)))).join(""));

  it("say themselves what merged cells above them said", async () => {
    const store = await storeWith();
    const text =
      "Machine,Date,Km,Cyl No,Leak %\nN-1,19-05-2026,700,1,16\n,,,2,1o\n,,,3,16\nN-2,20-05-2026,700,1,15\n,,,2,2o\n";
    const staged = await stageImport(store, [source("own.csv", text)], act);
    const rows = await rowsOf(store, staged);
    expect(rows.map((row) => row.slice(0, -1))).toEqual([
      ["Machine", "Date", "Km", "Cyl No", "Leak %"],
      ["N-1", "19-05-2026", "700", "2", "1o"],
      ["N-2", "20-05-2026", "700", "2", "2o"],
    ]);
  });

  it("stand below the title of their own sheet, and come in when they are mended", async () => {
    const store = await storeWith();
    const sheetOf = (unit: string, day: string, second: string) =>
      `Unit no: ${unit},,Date: ${day}\nKm: 500,,\nCyl,Dry kPa,Leak %\n1,1190,8\n2,1180,${second}\n,,\n`;
    const text = sheetOf("N-1", "2026-05-11", "9") + sheetOf("N-2", "2026-05-12", "1o");
    const staged = await stageImport(store, [source("own.csv", text)], act);
    expect(staged).toMatchObject({ refusedRows: 1 });
    const rows = await rowsOf(store, staged);
    expect(rows.filter((row) => row[0]?.startsWith("Unit no")).map((row) => row[0])).toEqual([
      "Unit no: N-1",
      "Unit no: N-2",
    ]);
    const again = await stageImport(store, [asFile(rows, "1o", "10")], act);
    expect(again).toMatchObject({ refusedRows: 0, newRows: 2 });
    expect(await testsOf(store, again, "N-2")).toEqual([
      ["2026-05-12", 500, "compression-dry", "2: 1180 kPa"],
      ["2026-05-12", 500, "leak-down", "2: 10 %"],
    ]);
    expect(await testsOf(store, again, "N-1")).toEqual([]);
  });
});
