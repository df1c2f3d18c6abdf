import { spawn } from "node:child_process";
import { closeSync, openSync } from "node:fs";
import path from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { orNearest } from "../../cli/nearest.ts";
import { commandFile } from "../../cli/setup/place.mjs";
import packageOfThis from "../../package.json" with { type: "json" };
import { borecast, buildCommand, compression, csv, folderWith, kpaLine, models } from "./command.ts";

beforeAll(buildCommand);

describe("what is typed amiss", () => {
  it("is taken for a slip only of a word that it is like", () => {
    const commands = ["assess", "import", "rebuild", "demo", "migrate"];
    expect(orNearest("asess", commands)).toBe("; did you mean assess?");
    expect(orNearest("improt", commands)).toBe("; did you mean import?");
    expect(orNearest("deno", commands)).toBe("; did you mean demo?");
    for (const typed of ["nonsense", "x", "", "--versoin"]) expect(orNearest(typed, commands)).toBe(".");
    expect(orNearest("json", [])).toBe(".");
  });

  it.each([
    [["nonsense"], 'There is no command "nonsense". See borecast --help\n'],
    [["rebuild", "--json"], "There is no option --json. See borecast rebuild --help\n"],
    [["assess", "--bogus"], "There is no option --bogus. See borecast assess --help\n"],
    [["assess", "--model", "x"], "There is no option --model; did you mean --models? See borecast assess --help\n"],
    [
      ["assess", "a.csv", "--horizon-years", "-1"],
      "After --horizon-years comes what looks like another option; write a value that begins with a dash as --horizon-years=VALUE. See borecast assess --help\n",
    ],
    [["assess", "a.csv", "--models"], "--models needs a value. See borecast assess --help\n"],
    [["assess", "--json=yes"], "--json takes no value. See borecast assess --help\n"],
  ])("%j is refused in a sentence", async (args, errors) => {
    expect(await borecast(folderWith(), args)).toEqual({ status: 2, output: "", errors });
  });
});

it("tells its version", async () => {
  expect(await borecast(folderWith(), ["--version"])).toEqual({
    status: 0,
    output: `${packageOfThis.version}\n`,
    errors: "",
  });
});

it.skipIf(process.platform !== "linux")("says in a sentence that its output could not be written", async () => {
  const folder = folderWith({ "models.json": models, "a.csv": csv(compression("B-1").map(kpaLine)) });
  const full = openSync("/dev/full", "w");
  const ended = await new Promise((resolve) => {
    const args = [commandFile, "assess", "a.csv", "--models", "models.json", "--json"];
    const env = { ...process.env, BORECAST_DATA: path.join(folder, "data") };
    const child = spawn(process.execPath, args, { cwd: folder, env, stdio: ["ignore", full, "pipe"] });
    let errors = "";
    child.stderr?.on("data", (chunk: Buffer) => {
      errors += chunk.toString();
    });
    child.on("close", (status) => resolve({ status, errors }));
  });
  closeSync(full);
  expect(ended).toEqual({ status: 2, errors: "The output could not be written: the disk is full.\n" });
});
