import { readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { borecast, buildCommand, folderWith, models } from "./command.ts";

beforeAll(buildCommand);

const sheet = [
  "Dry compression round",
  "Van no;Engine type;Tested on;Hours;Cyl 1 (psi);Cyl 2 (psi);Cyl 3 (psi);Cyl 4 (psi)",
  "B-1;petrol-4-a;13.03.2026;1.180,5;175;172;168;176",
  "B-2;petrol-4-a;14.03.2026;950;181;179;x;180",
].join("\n");
const files = { "models.json": models, "round.csv": sheet };

describe("borecast layout", () => {
  it("suggests, keeps and shows a layout, and files are imported by it", async () => {
    const folder = folderWith(files);
    expect((await borecast(folder, ["import", "models.json"])).status).toBe(0);
    const told = await borecast(folder, ["layout", "suggest", "round.csv"]);
    expect({ status: told.status, errors: told.errors }).toEqual({ status: 0, errors: "" });
    expect(told.output).toMatch(/\nCyl 3 \(psi\) +reading, cylinder 3, in psi +sure +By its heading\.\n/);
    expect(told.output).toContain(
      "For the whole file: test = compression-dry; meter_unit = h.\nDates are day-first.\n",
    );

    const json = await borecast(folder, ["layout", "suggest", "round.csv", "--json"]);
    writeFileSync(path.join(folder, "north.json"), json.output);
    expect(await borecast(folder, ["layout", "save", "North", "north.json", "--by", "A. Fitter"])).toEqual({
      status: 0,
      output: 'The layout "North" is kept.\n',
      errors: "",
    });
    expect((await borecast(folder, ["layout", "list"])).output).toMatch(
      /\nNorth +\d+ \w+ \d{4} +A\. Fitter +van no \| /,
    );
    const shown = await borecast(folder, ["layout", "show", "North"]);
    expect(JSON.parse(shown.output)).toEqual(JSON.parse(json.output).layout);
    expect((await borecast(folder, ["layout", "suggest", "round.csv"])).output).toMatch(
      /^Its header is that of the kept layout "North"\.\n/,
    );

    const taken = await borecast(folder, ["import", "models.json", "round.csv", "--layout", "North"]);
    expect(taken.output).toMatch(/\nround\.csv +tests-long +2 +7 +0 +0 +1 +0\n/);
    expect(taken.errors).toContain('round.csv, line 4, Cyl 3 (psi): "x" is not a number\n');
    expect(taken.status).toBe(1);
  });

  it("says what a layout tells for the whole of a file, and asks for it where the layout is not named", async () => {
    const folder = folderWith({ "models.json": models, "sheet.csv": "Unit,Hours,Dry 1 psi\nQ-1,100,170\n" });
    const answers = ["--answer", "test-date=2026-03-01"];
    const json = await borecast(folder, ["layout", "suggest", "sheet.csv", ...answers, "--json"]);
    writeFileSync(path.join(folder, "north.json"), json.output);
    expect((await borecast(folder, ["layout", "save", "North", "north.json"])).status).toBe(0);
    const waits = await borecast(folder, ["import", "sheet.csv", "--dry-run"]);
    expect(waits.output).toMatch(/\nsheet\.csv +waits for an answer /);
    expect(waits.errors).toContain('By the kept layout "North" the date of the test is "2026-03-01"');
    const named = await borecast(folder, ["import", "models.json", "sheet.csv", "--dry-run", "--layout", "North"]);
    expect(named.errors).toContain('By the layout "North" the date of the test is "2026-03-01" in all rows.\n');
  });

  it("takes back what is not offered any more, and names the nearest of those that are", async () => {
    const folder = folderWith({
      ...files,
      "l.json": '{"layoutVersion":1,"headerRows":1,"columns":[{"header":"a","is":"ignored"}]}',
    });
    const saved = await borecast(folder, ["layout", "save", "North", "l.json"]);
    expect(saved).toEqual({
      status: 0,
      output: 'The layout "North" is kept.\n',
      errors: "It does not tell a column with readings; rows without that are refused.\n",
    });
    const wrong = await borecast(folder, ["import", "round.csv", "--layout", "Norht"]);
    expect(wrong).toEqual({
      status: 2,
      output: "",
      errors: 'There is no layout "Norht"; did you mean North? borecast layout list names them.\n',
    });
    expect((await borecast(folder, ["layout", "withdraw", "North"])).status).toBe(0);
    expect((await borecast(folder, ["layout", "list"])).output).toBe("No layouts are kept.\n");
    expect((await borecast(folder, ["layout", "show", "North"])).status).toBe(2);
  });

  it.each([
    [["layout"], /^Say what to do with layouts: list, show, save, withdraw and suggest\./],
    [["layout", "sugest", "x.csv"], /^There is no "layout sugest"; did you mean suggest\?/],
    [["layout", "constructor"], /^There is no "layout constructor"/],
    [["layout", "show"], /^The name of a layout is missing\./],
    [["layout", "list", "all"], /^"all" is one word too many\./],
    [["layout", "suggest", "none.csv"], /^There is no file none\.csv\.$/m],
    [["layout", "save", "North", "round.csv"], /^The file round\.csv is not valid JSON\. Nothing was kept\.$/m],
    [["layout", "save", "North", "models.json"], /^The layout in models\.json cannot be kept: /],
  ])("%j is refused with a sentence", async (args, words) => {
    const { status, output, errors } = await borecast(folderWith(files), args);
    expect({ status, output }).toEqual({ status: 2, output: "" });
    expect(errors).toMatch(words);
  });

  it("says by its exit status that questions stay open, and which", async () => {
    const open = "Unit,Date,Hours,Dry 1 psi\nQ-1,03/04/2025,100,170\n";
    const { status, output } = await borecast(folderWith({ "open.csv": open }), ["layout", "suggest", "open.csv"]);
    expect(status).toBe(1);
    expect(output).toContain(
      "- date-order: Nothing tells whether the day or the month comes first in dates such as 03/04/2025. Answers: day-first (the day), month-first (the month).\n",
    );
  });

  it("takes answers, so that what waits can be imported, as the import itself says", async () => {
    const open = "Unit,Date,Hours,Dry 1 psi\nQ-1,03/04/2025,100,170\n";
    const folder = folderWith({ "models.json": models, "open.csv": open });
    const waits = await borecast(folder, ["import", "open.csv"]);
    expect(waits.status).toBe(2);
    expect(waits.output).toMatch(/\nopen\.csv +waits for an answer /);
    expect(waits.errors).toContain("whether the day or the month comes first in dates such as 03/04/2025");
    expect(waits.errors).toContain("borecast layout suggest open.csv shows each question with its answers");
    const answer = ["layout", "suggest", "open.csv", "--answer"];
    const told = await borecast(folder, [...answer, "date-order=day-first", "--json"]);
    expect(told.status).toBe(0);
    expect(JSON.parse(told.output)).toMatchObject({ layout: { dateOrder: "day-first" }, questions: [] });
    expect(await borecast(folder, [...answer, "date-order=both"])).toMatchObject({
      status: 2,
      errors: '--answer date-order=both: this is no answer to "date-order"; answer day-first or month-first.\n',
    });
    expect((await borecast(folder, [...answer, "unit=V-1"])).errors).toMatch(
      /^--answer unit=V-1: there is no question "unit"; open is date-order\./,
    );
  });

  it("shows the first rows where no headings are known, and takes the row that is given", async () => {
    const folder = folderWith({ "odd.csv": "Yard;;\n;bench;\nxx;when;zz\nN-1;24.03.2026;11,5\n" });
    const none = await borecast(folder, ["layout", "suggest", "odd.csv"]);
    expect(none.status).toBe(1);
    expect(none.output).toMatch(/\n +3 +xx \| when \| zz\n/);
    const chosen = await borecast(folder, ["layout", "suggest", "odd.csv", "--header-row", "2-3", "--json"]);
    const { layout } = JSON.parse(chosen.output);
    expect(layout.headerRows).toBe(2);
    expect(layout.columns.map(({ header }: { header: string }) => header)).toEqual(["xx", "bench when", "bench zz"]);
    expect((await borecast(folder, ["layout", "suggest", "odd.csv", "--header-row", "3-1"])).errors).toMatch(
      /^--header-row 3-1 is no row: /,
    );
  });

  it("says which cells of a file of the contract a layout reads, and how they are read so", async () => {
    const rows = "unit,test_date,meter,meter_unit,test,cylinder,value,value_unit\n";
    const file = `${rows}N-1,2026-03-24,100,h,compression-dry,1,175psi,psi\n`;
    const folder = folderWith({ "written.csv": file });
    expect((await borecast(folder, ["layout", "suggest", "written.csv"])).output).toMatch(
      /^The file has the columns of the contract, but not all cells as it has them, such as "175psi" \(value\)\./,
    );
    expect((await borecast(folder, ["import", "written.csv"])).errors).toContain(
      "written.csv: some of its refused cells can be read by a layout. Keep one with borecast layout suggest written.csv",
    );
  });

  it("leaves a file of the contract alone", async () => {
    const demo = readFileSync(path.resolve(import.meta.dirname, "../../demo-data/units.csv"), "utf8");
    const { status, output } = await borecast(folderWith({ "units.csv": demo }), ["layout", "suggest", "units.csv"]);
    expect({ status, output }).toEqual({
      status: 0,
      output: "The file has the columns of the contract and needs no layout.\n",
    });
  });
});
