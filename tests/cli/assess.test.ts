import path from "node:path";
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { type Assessment, assessmentSchema } from "@/lib/schema/assessment.ts";
import { toKpa } from "@/lib/units.ts";
import { borecast, buildCommand, compression, csv, folderWith, kpaLine, models } from "./command.ts";

beforeAll(buildCommand);

const rows = [...compression("B-1"), ...compression("B-2", { fall: 10 }), ...compression("B-3", { tests: 2 })];
const lines = rows.map(kpaLine);
const demo = path.resolve(import.meta.dirname, "../../demo-data");
const demoTests = ["aircraft", "highcol", "lowmarsh", "midfell", "pumps"].map((part) => `${demo}/tests-${part}.csv`);
const demoOthers = ["units", "depots", "repairs", "meters", "checks"].flatMap((kind) => [
  `--${kind}`,
  `${demo}/${kind}.csv`,
]);
const demoArguments = ["assess", ...demoTests, "--models", `${demo}/engine-models.json`, ...demoOthers];

async function assess(files: Readonly<Record<string, string>>, ...more: readonly string[]) {
  const folder = folderWith({ "models.json": models, ...files });
  const named = Object.keys(files).filter((name) => name.endsWith(".csv") && !more.includes(name));
  return borecast(folder, ["assess", ...named, "--models", "models.json", ...more]);
}

const parsed = (output: string): Assessment => assessmentSchema.parse(JSON.parse(output));

describe("borecast assess --json", () => {
  it("prints the demo fleet as one document of the contract, the same bytes on every run", async () => {
    const folder = folderWith();
    const first = await borecast(folder, [...demoArguments, "--as-of", "2026-08-31", "--json"]);
    const { asOf, units } = parsed(first.output);
    expect(asOf).toBe("2026-08-31");
    expect(units.length).toBe(40);
    expect(first.status).toBe(first.errors === "" ? 0 : 1);
    expect((await borecast(folder, [...demoArguments, "--as-of", "2026-08-31", "--json"])).output).toBe(first.output);
  });

  it("prints the same bytes for shuffled rows, and for rows spread over files in another order", async () => {
    const whole = await assess({ "a.csv": csv(lines) }, "--json");
    expect(whole).toMatchObject({ status: 0, errors: "" });
    await fc.assert(
      fc.asyncProperty(
        fc.shuffledSubarray(lines, { minLength: lines.length }),
        fc.nat(lines.length),
        async (shuffled, cut) => {
          const files = { "b.csv": csv(shuffled.slice(cut)), "a.csv": csv(shuffled.slice(0, cut)) };
          expect((await assess(files, "--json")).output).toBe(whole.output);
        },
      ),
      { numRuns: 4 },
    );
  });

  it("comes to the same in kPa and in psi, but for the rounding of the gauge", async () => {
    const psiGauge = 0.5;
    const kpaOfPsi = toKpa(1, "psi");
    const level = (document: Assessment) =>
      document.units.flatMap((unit) => unit.cylinders.flatMap((c) => c.measures.map((m) => m.level ?? Number.NaN)));
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 0, max: 45 }), fc.integer({ min: 1100, max: 1300 }), async (fall, start) => {
        const history = compression("B-1", { fall, start });
        // Read on a gauge of half a psi, then written down in either unit.
        const psi = history.map((row) => ({ ...row, psi: Math.round(row.kpa / kpaOfPsi / psiGauge) * psiGauge }));
        const exact = psi.map((row) => kpaLine({ ...row, kpa: toKpa(row.psi, "psi") }));
        const rounded = psi.map((row) => kpaLine({ ...row, kpa: Math.round(row.psi * kpaOfPsi) }));
        const inPsi = psi.map((row) => kpaLine({ ...row, kpa: row.psi }).replace(/kPa$/, "psi"));
        const [a, b, c] = await Promise.all(
          [exact, rounded, inPsi].map(async (file) => parsed((await assess({ "a.csv": csv(file) }, "--json")).output)),
        );
        expect(c).toEqual(a);
        const [inKpa, other] = [level(b as Assessment), level(c as Assessment)];
        expect(inKpa.length).toBe(4);
        // Half a kPa on each reading moves the level by no more than that, and the gauge's own error is some kPa.
        for (const [i, value] of inKpa.entries()) expect(Math.abs(value - (other[i] as number))).toBeLessThan(1);
      }),
      { numRuns: 4 },
    );
  });

  it("counts only what lies up to and including --as-of", async () => {
    const early = lines.filter((l) => l.includes("2022-"));
    expect(early.length).toBeLessThan(lines.length);
    const cut = await assess({ "a.csv": csv(lines) }, "--json", "--as-of", "2022-09-15");
    const alone = await assess({ "a.csv": csv(early) }, "--json", "--as-of", "2022-09-15");
    expect(cut.output).toBe(alone.output);
    const left = lines.length - early.length;
    expect(cut).toMatchObject({
      status: 0,
      errors: `a.csv: ${left} readings or rows lie after 2022-09-15, the as-of date, and were left out.\n`,
    });
    expect(alone.errors).toBe("");
    const before = parsed((await assess({ "a.csv": csv(lines) }, "--json", "--as-of", "2022-09-14")).output);
    expect(before.units[0]?.lastTestDate).toBe("2022-03-15");
  });

  it("without --as-of tells the fleet for the latest date in the files, also one of a meter reading", async () => {
    expect(parsed((await assess({ "a.csv": csv(lines) }, "--json")).output).asOf).toBe("2024-09-15");
    const meters = "unit,reading_date,meter\nB-1,2025-01-31,4500\n";
    const told = await assess({ "a.csv": csv(lines), "m.csv": meters }, "--json", "--meters", "m.csv");
    expect(parsed(told.output).asOf).toBe("2025-01-31");
  });

  it("says that the latest date lies ahead of today, unless that day was asked for", async () => {
    const meters = "unit,reading_date,meter\nB-1,2999-01-31,4500\n";
    const files = { "a.csv": csv(lines), "m.csv": meters };
    const told = await assess(files, "--json", "--meters", "m.csv");
    expect(told.errors).toContain("The latest date in the files, 2999-01-31, lies ahead of today");
    const asked = await assess(files, "--json", "--meters", "m.csv", "--as-of", "2024-09-15");
    expect(asked.errors).not.toContain("ahead of today");
  });

  it("lists units that were never tested, and looks as far ahead as told", async () => {
    const units = "unit,engine_model,meter_unit\nB-9,petrol-4-a,h\n";
    const files = { "a.csv": csv(lines), "u.csv": units };
    const document = parsed((await assess(files, "--json", "--units", "u.csv")).output);
    expect(document.units.map(({ unit, band }) => [unit, band === null])).toContainEqual(["B-9", true]);
    const short = parsed((await assess(files, "--json", "--units", "u.csv", "--horizon-years", "0.5")).output);
    const dates = short.units.flatMap((u) => [
      ...Object.values(u.repairs.topEnd.date),
      ...Object.values(u.repairs.bottomEnd.date),
    ]);
    for (const date of dates) expect(date === null || date <= "2025-03-15").toBe(true);
    expect(short).not.toEqual(document);
  });
});

describe("borecast assess", () => {
  it("names each refused row by file, line, column and reason, and says so by its exit status", async () => {
    const bad = [lines[0]?.replace(/,1240,kPa|,\d+,kPa$/, ",950,%").replace("compression-dry", "leak-down") ?? ""];
    const { status, errors, output } = await assess(
      { "a.csv": csv([...lines, ...bad, "B-1,petrol-4-a,soon"]) },
      "--json",
    );
    expect(errors.split("\n")[0]).toBe(
      `a.csv, line ${lines.length + 2}, value: 950 % is not a leakage; it must lie between 0 and 100`,
    );
    expect(errors).toContain(`a.csv, line ${lines.length + 3}, test_date: "soon" is not a date`);
    expect(status).toBe(1);
    expect(parsed(output).units.length).toBe(3);
  });

  it("prints a table for people, the most urgent unit first", async () => {
    const { output, status, errors } = await assess({
      "a.csv": csv([...lines, ...compression("B-4", { start: 880 }).map(kpaLine)]),
    });
    const [head, , first] = output.split("\n");
    expect(head).toMatch(/^unit +band +weakest place +meter +last test +top-end repair +bottom-end repair$/);
    expect(first).toMatch(/^B-4 +past-limit /);
    expect(output).toMatch(
      /\n4 units on 15 Sep 2024: 1 past-limit, [^\n]+\.\nWarnings, in words with --json, on \d units: B-4[^\n]*\.\n$/,
    );
    expect({ status, errors }).toEqual({ status: 0, errors: "" });
  });

  const good = { "a.csv": csv(lines), "models.json": models, "units.csv": "unit,engine_model\nB-1,petrol-4-a\n" };
  const broken = {
    "late.csv": `${csv(lines)}`,
    "bad.json": '{ "schemaVersion": 1, "engineModels": [ { "id": "x" } ] }',
  };
  it.each<[string[], string | RegExp]>([
    [["assess", "--models", "models.json"], "No file of test results was given. See borecast assess --help"],
    [["assess", "a.csv"], "The engine models are missing: give --models FILE. See borecast assess --help"],
    [["assess", "none.csv", "--models", "models.json"], "There is no file none.csv."],
    [["assess", "a.csv", "--models", "none.json"], "There is no file none.json."],
    [["assess", ".", "--models", "models.json"], ". is a folder, not a file."],
    [
      ["assess", "a.csv", "--models", "bad.json"],
      /The engine models in bad\.json are not usable; nothing was assessed\.$/,
    ],
    [["assess", "a.csv", "--models", "a.csv"], /The engine models in a\.csv are not usable; nothing was assessed\.$/],
    [
      ["assess", "units.csv", "--models", "models.json"],
      "units.csv holds no test results, but units; give it as --units units.csv. See borecast assess --help",
    ],
    [
      ["assess", "a.csv", "--models", "models.json", "--repairs", "units.csv"],
      /^units\.csv: .*the columns .* are missing\nThe file units\.csv could not be used; nothing was assessed\.$/,
    ],
    [["assess", "models.json", "--models", "models.json"], /^models\.json holds no test results, but engine models/],
    [
      ["assess", "a.csv", "--models", "models.json", "--as-of", "2026-02-30"],
      "--as-of 2026-02-30 is not a date; write it as YYYY-MM-DD, such as 2026-06-30.",
    ],
    [
      ["assess", "a.csv", "--models", "models.json", "--horizon-years", "0"],
      "--horizon-years 0 is not possible; it must be a number above 0 and at most 30.",
    ],
    [
      ["assess", "a.csv", "--model", "models.json"],
      "There is no option --model; did you mean --models? See borecast assess --help",
    ],
  ])("does nothing for %j, and says why in one sentence", async (args, why) => {
    const { status, output, errors } = await borecast(folderWith({ ...good, ...broken }), args);
    expect(output).toBe("");
    expect(status).toBe(2);
    const said = errors.trimEnd();
    if (typeof why === "string") expect(said).toBe(why);
    else expect(said).toMatch(why);
    expect(errors).not.toMatch(/\n {4}at /);
  });
});
