import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import Database from "better-sqlite3";
import { beforeAll, describe, expect, it } from "vitest";
import { bookParts, sheetOfTexts, zipOf } from "../lib/intake/workbook/made-up-workbook.ts";
import { borecast, buildCommand, compression, csv, folderWith, kpaLine, models } from "./command.ts";

beforeAll(buildCommand);

const lines = compression("B-1").map(kpaLine);
/** The states of the imports that were not given up. */
function importsIn(folder: string): unknown[] {
  const database = new Database(path.join(folder, "data", "borecast.db"), { readonly: true });
  try {
    return database.prepare("select state from imports where state <> 'discarded'").pluck().all();
  } finally {
    database.close();
  }
}

const files = { "models.json": models, "a.csv": csv(lines) };

describe("borecast", () => {
  it("tells every command, and each command more, with examples", async () => {
    const folder = folderWith();
    const { output, status } = await borecast(folder, ["--help"]);
    expect(status).toBe(0);
    for (const command of ["assess", "import", "layout", "export", "rebuild", "demo", "migrate"]) {
      expect(output).toContain(`  ${command} `);
      const help = await borecast(folder, [command, "--help"]);
      expect(help.status).toBe(0);
      expect(help.output).toMatch(new RegExp(`^borecast ${command}`));
      expect(help.output).toMatch(/\nExamples\n {2}\S/);
    }
  });

  it("offers the command most like the one typed", async () => {
    const { status, output, errors } = await borecast(folderWith(), ["asess", "x.csv"]);
    expect(errors).toBe('There is no command "asess"; did you mean assess? See borecast --help\n');
    expect({ status, output }).toEqual({ status: 2, output: "" });
  });

  it("without a command says where help is", async () => {
    expect(await borecast(folderWith(), [])).toEqual({
      status: 2,
      output: "",
      errors: "No command was given. See borecast --help\n",
    });
  });
});

describe("borecast import", () => {
  it("takes files once, says what they bring, and leaves nothing of a dry run", async () => {
    const folder = folderWith(files);
    const dry = await borecast(folder, ["import", "models.json", "a.csv", "--dry-run"]);
    expect(dry).toMatchObject({ status: 0, errors: "" });
    expect(dry.output).toMatch(/\nA dry run: nothing was taken\.\n$/);
    const taken = await borecast(folder, ["import", "a.csv", "models.json", "--by", "A. Fitter"]);
    expect(taken.output).toMatch(/\na\.csv +tests-long +24 +24 +0 +0 +0 +0\n/);
    expect(taken.output).toMatch(/\nTaken\. 1 unit was assessed\.\n$/);
    const again = await borecast(folder, ["import", "a.csv", "models.json"]);
    expect(again.output).toMatch(/\na\.csv +tests-long +24 +0 +24 +0 +0 +0\n/);
    expect(again.output).toMatch(/\nNothing new: nothing was taken\.\n$/);
  });

  it("leaves rows that change what is known, unless told to take them", async () => {
    const changed = csv([lines[0]?.replace(/,\d+,kPa$/, ",1111,kPa") ?? ""]);
    const folder = folderWith({ ...files, "b.csv": changed });
    await borecast(folder, ["import", "models.json", "a.csv"]);
    const left = await borecast(folder, ["import", "b.csv"]);
    expect(left.output).toContain("1 row changes what is known and was left out; --take-changes takes them.");
    expect((await borecast(folder, ["import", "b.csv", "--take-changes"])).output).toContain("Taken.");
    expect((await borecast(folder, ["import", "b.csv"])).output).toMatch(/\nb\.csv +tests-long +1 +0 +1 +0 /);
  });

  it("takes the good rows, names the bad ones, and says so by its exit status", async () => {
    const folder = folderWith({
      ...files,
      "b.csv": csv([...lines, "B-2,petrol-4-a,2024-01-01,5,h,leak-down,1,950,%"]),
    });
    const { status, output, errors } = await borecast(folder, ["import", "models.json", "b.csv"]);
    expect(status).toBe(1);
    expect(errors).toBe("b.csv, line 26, value: 950 % is not a leakage; it must lie between 0 and 100\n");
    expect(output).toContain("Taken.");
  });

  it("says by its exit status that engine models or whole files were refused", async () => {
    const bad = JSON.stringify({
      schemaVersion: 1,
      engineModels: [
        { id: "x", cylinders: 0 },
        { id: "y", cylinders: 4 },
      ],
    });
    const folder = folderWith({ ...files, "bad.json": bad, "none.csv": "a,b\n1,2\n" });
    const models = await borecast(folder, ["import", "bad.json"]);
    expect(models.status).toBe(1);
    expect(models.output).toMatch(/\nbad\.json +engine-models +2 +0 +0 +0 +2 +0\n/);
    const some = await borecast(folder, ["import", "models.json", "none.csv"]);
    expect(some.status).toBe(1);
    expect(some.output).toMatch(/\nnone\.csv +waits for an answer /);
    expect((await borecast(folder, ["import", "none.csv"])).status).toBe(2);
  });

  it("takes a workbook by the sheet that is named, and text in the encoding and by the delimiter that are", async () => {
    const cells = csv(lines)
      .trimEnd()
      .split("\n")
      .map((line) => line.split(","));
    const sheets = [
      { name: "Notes", xml: sheetOfTexts([["nothing here"]]) },
      { name: "Results", xml: sheetOfTexts(cells) },
    ];
    const folder = folderWith({ "models.json": models, "odd.csv": "unit|reading_date|meter\nB-1|2026-06-01|9000\n" });
    writeFileSync(path.join(folder, "a.xlsx"), zipOf(bookParts({ sheets })));
    const found = await borecast(folder, ["import", "models.json", "a.xlsx", "--dry-run"]);
    expect(found.output).toMatch(/\na\.xlsx +tests-long +24 +24 /);
    const wrong = await borecast(folder, ["import", "models.json", "a.xlsx", "--sheet", "Notes", "--dry-run"]);
    expect(wrong.status).toBe(1);
    expect(wrong.errors).toContain("a.xlsx: the file waits for an answer, and nothing of it is read before.");
    expect(wrong.errors).toContain('This is its sheet "Notes"; the workbook has "Notes" and "Results"');
    const named = ["--sheet", "results"];
    const { status, output, errors } = await borecast(folder, ["import", "models.json", "a.xlsx", "odd.csv", ...named]);
    expect(output).toMatch(/\na\.xlsx +tests-long +24 +24 +0 +0 +0 +0\n/);
    expect(output).toMatch(/\nodd\.csv +meters +1 +1 /);
    expect(errors).toContain('the rows are those of the sheet "Results"; the workbook has "Notes" and "Results"');
    expect(status).toBe(0);
    const assessed = await borecast(folder, ["assess", "a.xlsx", "--models", "models.json", "--json", ...named]);
    expect(JSON.parse(assessed.output)).toMatchObject({ units: [{ unit: "B-1" }] });
    const forced = await borecast(folder, ["import", "odd.csv", "--delimiter", ",", "--dry-run"]);
    expect(forced.status).toBe(2);
    const none = await borecast(folder, ["import", "a.xlsx", "--sheet", "Tests"]);
    expect(none.errors).toContain('the workbook has no sheet of that name; it has "Notes" and "Results"');
    const slip = await borecast(folder, ["import", "odd.csv", "--encoding", "utf8"]);
    expect(slip).toEqual({
      status: 2,
      output: "",
      errors: "--encoding utf8 is not known: give utf-8, utf-16le, utf-16be or windows-1252; did you mean utf-8?\n",
    });
  });

  it.skipIf(process.platform === "win32")("reads a pipe, which comes but once", async () => {
    const folder = folderWith(files);
    execFileSync("sh", ["-c", "mkfifo pipe"], { cwd: folder });
    const writer = spawn("sh", ["-c", "cat a.csv > pipe"], { cwd: folder });
    const { output } = await borecast(folder, ["assess", "pipe", "--models", "models.json", "--json"]);
    expect(JSON.parse(output)).toMatchObject({ units: [{ unit: "B-1" }] });
    expect(writer.exitCode).toBe(0);
  });

  it("does nothing without files, or with one that is not there", async () => {
    const folder = folderWith(files);
    expect(await borecast(folder, ["import"])).toMatchObject({ status: 2, output: "" });
    const missing = await borecast(folder, ["import", "models.json", "none.csv"]);
    expect(missing).toEqual({ status: 2, output: "", errors: "There is no file none.csv.\n" });
    const aFolder = await borecast(folder, ["import", "models.json", folder]);
    expect(aFolder).toEqual({ status: 2, output: "", errors: `${folder} is a folder, not a file.\n` });
  });

  it.skipIf(process.platform !== "linux")("takes nothing where a file's bytes cannot be had", async () => {
    // Opens like any file; reading it from its beginning fails.
    const unreadable = "/proc/self/mem";
    const folder = folderWith(files);
    for (const command of [
      ["import", "models.json", "a.csv", unreadable],
      ["assess", "a.csv", unreadable, "--models", "models.json"],
    ]) {
      const { status, output, errors } = await borecast(folder, command);
      expect(errors).toMatch(/^The file \/proc\/self\/mem could not be read: [^\n]*\.\n$/);
      expect({ status, output }).toEqual({ status: 2, output: "" });
    }
    expect(importsIn(folder)).toEqual([]);
  });

  it("shows what a terminal would obey, and does not pass it on", async () => {
    const name = "a\u001b]0;owned\u0007.csv";
    const bad = "B-9,petrol-4-a,2024-01-01,5,h,leak-down,1,\u001b[2J\u202e950,%";
    const folder = folderWith({ "models.json": models, [name]: csv([...lines, bad]) });
    const { output, errors } = await borecast(folder, ["import", "models.json", name]);
    expect(errors).toContain('a\\u001b]0;owned\\u0007.csv, line 26, value: "\\u001b[2J\\u202e950" is not a number');
    expect(output).toContain("\na\\u001b]0;owned\\u0007.csv  tests-long");
    expect(`${output}${errors}`).not.toMatch(/[^\P{Cc}\n]|\p{Bidi_Control}/u);
  });

  it("does nothing with a database of another program", async () => {
    const folder = folderWith(files);
    mkdirSync(path.join(folder, "data"));
    const other = new Database(path.join(folder, "data", "borecast.db"));
    other.exec("create table recipes (name text)");
    other.close();
    const { status, output, errors } = await borecast(folder, ["import", "models.json", "a.csv"]);
    expect({ status, output }).toEqual({ status: 2, output: "" });
    expect(errors).toMatch(/^The file .* is not a Borecast database\. Choose another data folder\.\n$/);
  });

  it("stopped after it has told what the files bring, it leaves nothing half done and says what stands", async () => {
    const units = Array.from({ length: 30 }, (_, i) => compression(`B-${i}`).map(kpaLine));
    const folder = folderWith({ "models.json": models, "a.csv": csv(units.flat()) });
    const stopped = await borecast(folder, ["import", "models.json", "a.csv"], (child) =>
      child.stdout.once("data", () => child.kill("SIGINT")),
    );
    expect(stopped.status).toBe(130);
    const isIn = importsIn(folder).includes("committed");
    expect(importsIn(folder)).toEqual(isIn ? ["committed"] : []);
    expect(stopped.errors).toBe(
      isIn
        ? "The import is in; its assessments are made good at the next start.\n"
        : "Stopped: what was not finished was taken back.\n",
    );
  });
});

describe("borecast migrate and demo", () => {
  it("makes the database, loads the demo fleet once, and rebuilds it", async () => {
    const folder = folderWith();
    expect(await borecast(folder, ["migrate"])).toEqual({ status: 0, output: "", errors: "" });
    const first = await borecast(folder, ["demo"]);
    expect(first).toMatchObject({ status: 0, errors: "" });
    expect(first.output).toMatch(/^The demo fleet is in: [\d,]+ rows, 40 units\.\n$/);
    expect((await borecast(folder, ["demo"])).output).toBe("The database holds facts already: nothing was changed.\n");
    expect((await borecast(folder, ["rebuild"])).output).toBe("Made anew: 40 units.\n");
  });

  it("refuses a database of a newer version in one sentence", async () => {
    const folder = folderWith();
    await borecast(folder, ["migrate"]);
    const file = path.join(folder, "data", "borecast.db");
    const database = new Database(file);
    database.prepare("insert into __drizzle_migrations (hash, created_at) values ('of tomorrow', 1)").run();
    database.close();
    const { status, output, errors } = await borecast(folder, ["migrate"]);
    expect({ status, output }).toEqual({ status: 2, output: "" });
    expect(errors).toBe(
      `The database ${file} was written by a newer version of Borecast. Start that version, or choose another data folder.\n`,
    );
  });
});
