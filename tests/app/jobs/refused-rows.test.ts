import { describe, expect, it } from "vitest";
import { putRight } from "@/app/_jobs/put-right.ts";
import { refusedRows } from "@/app/_jobs/refused-rows.ts";
import { stageImport } from "@/app/_jobs/stage-import.ts";
import { type ImportDetail, importIssues } from "@/db/imports.ts";
import type { Store } from "@/db/store.ts";
import { csvLine } from "@/lib/outtake/csv.ts";
import { act, csv, history, modelsFile, newStore, source } from "./made-up-files.ts";

async function refusedOf(store: Store, detail: ImportDetail, name: string): Promise<readonly (readonly string[])[]> {
  const file = detail.files.find((one) => one.name === name);
  if (file === undefined) throw new Error(`${name} is no file of the import`);
  const rows: (readonly string[])[] = [];
  for await (const some of refusedRows(store, detail, file)) rows.push(...some);
  return rows;
}
/** Rows with a figure that nobody can read, and a name that a spreadsheet would run. */
const broken = (rows: readonly string[]) =>
  rows.map((row, i) => (i % 4 === 1 ? row.replace(/,[\d.]+,%/, ",1o,%") : row));

describe("the refused rows of a file", () => {
  it("come as they were given, below the header, each with why; mended they come in", async () => {
    const store = await newStore();
    const rows = history("N-1");
    const given = broken(rows);
    const wrong = given.filter((row) => row.includes(",1o,%"));
    expect(wrong.length).toBeGreaterThan(2);
    const staged = await stageImport(store, [modelsFile, source("a.csv", csv(given))], act);
    const [head, ...refused] = await refusedOf(store, staged, "a.csv");
    expect(head?.at(-1)).toBe("reason");
    expect(refused.map((row) => row.slice(0, -1).join(","))).toEqual(wrong);
    for (const row of refused) expect(row.at(-1)).toMatch(/^line \d+, value: "1o"/);
    const mended = [head ?? [], ...refused].map((row) => csvLine(row.map((cell) => (cell === "1o" ? "11" : cell))));
    const again = await stageImport(store, [modelsFile, source("mended.csv", mended.join(""))], act);
    const mendedFile = again.files.find(({ name }) => name === "mended.csv");
    expect(mendedFile).toMatchObject({ refusedRows: 0, newRows: wrong.length });
  });

  it("of a file with columns of its own have its title block and header, and are read by them again", async () => {
    const store = await newStore();
    const text = (value: string) => `Workshop results;;;;
Truck;Tested;Odometer (km);Leak cyl 1 %;Leak cyl 2 %
N-1;24.03.2026;120000;12,5;10
N-2;25.03.2026;130000;${value};9
`;
    const units = source("units.csv", "unit,engine_model,meter_unit\nN-1,petrol-4-a,km\nN-2,petrol-4-a,km\n");
    const staged = await stageImport(store, [modelsFile, units, source("own.csv", text("950"))], act);
    const rows = await refusedOf(store, staged, "own.csv");
    expect(rows.map((row) => row[0])).toEqual(["Workshop results", "Truck", "N-2"]);
    expect(rows[1]?.at(-1)).toBe("reason");
    const mended = rows.map((row) => csvLine(row.map((cell) => (cell === "950" ? "9,5" : cell)))).join("");
    const again = await stageImport(store, [modelsFile, units, source("again.csv", mended)], act);
    expect(again.files.find(({ name }) => name === "again.csv")).toMatchObject({ refusedRows: 0, newRows: 2 });
  });

  it("keep what was put right in them, in files of the contract and in others", async () => {
    const units = source("units.csv", "unit,engine_model,meter_unit\nN-1,petrol-4-a,h\n");
    const files = [
      csv(["N-1,petrol-4-a,2026-02-31,2600,h,leak-down,4,1o.5,%,,,"]),
      "Unit,Date,Hours,Cyl 1 leak %,Cyl 2 leak %\nN-1,2026-02-31,1000,1o,9\nN-1,2026-03-01,1100,8,9\n",
    ];
    for (const text of files) {
      const store = await newStore();
      const staged = await stageImport(store, [modelsFile, units, source("a.csv", text)], act);
      const { issues } = await importIssues(store, staged.id, { offset: 0, limit: 9, severity: "refused" });
      const issue = issues.find(({ value }) => value === "2026-02-31")?.id ?? 0;
      const after = await putRight(store, staged.id, { ...act, issue, value: "2026-02-28" });
      const rows = await refusedOf(store, after, "a.csv");
      expect(rows).toHaveLength(2);
      expect(rows[1]).toContain("2026-02-28");
      expect(rows[1]?.at(-1)).not.toContain("2026-02-31");
    }
  });

  it("have a column more where one was put right that the file lacks", async () => {
    const store = await newStore();
    const lacking =
      "unit,engine_model,test_date,meter,meter_unit,test,cylinder,value\nN-1,petrol-4-a,2026-02-28,2600,h,leak-down,9,10\n";
    const corrections = [{ line: 2, column: "value_unit", was: "", value: "%" }];
    const file = { ...source("a.csv", lacking), choice: { corrections } };
    const [head, row] = await refusedOf(store, await stageImport(store, [modelsFile, file], act), "a.csv");
    expect(head?.slice(-2)).toEqual(["value_unit", "reason"]);
    expect(row?.at(-2)).toBe("%");
    expect(row?.at(-1)).toContain("cylinder");
  });
});
