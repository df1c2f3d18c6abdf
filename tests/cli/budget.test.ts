import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { budgetDocumentSchema } from "../../lib/schema/budget-document.ts";
import { borecast, buildCommand, folderWith } from "./command.ts";
import { demoArguments, demoFile } from "./demo-arguments.ts";

beforeAll(buildCommand);

const budget = (...more: readonly string[]) => borecast(folderWith(), ["budget", ...demoArguments, ...more]);
const workshop = ["--workshop", demoFile("workshop.json")];

describe("borecast budget", () => {
  it("prints one document, the same bytes for the same seed, of which expected amounts add up", async () => {
    const [first, again] = await Promise.all(
      [1, 2].map(() => budget(...workshop, "--json", "--draws", "2000", "--seed", "1")),
    );
    expect(first?.output).toBe(again?.output);
    const document = budgetDocumentSchema.parse(JSON.parse(first?.output ?? ""));
    expect(document).toMatchObject({ asOf: "2026-08-31", currency: "XXX", seed: 1, draws: 2_000 });
    const [year] = document.fiscalYears;
    expect(year).toMatchObject({ name: "2026/27", firstMonth: "2026-08", months: 11 });
    expect(year?.byDepot.reduce((sum, { expected }) => sum + expected, 0)).toBe(year?.expected);
    // The unit that was never tested is foreseen by its model's other engines.
    expect(year?.untested.expected).toBeGreaterThan(0);
    expect(year?.units.map(({ unit }) => unit)).toEqual(expect.arrayContaining(["H-301", "H-304", "H-306"]));
  });

  it("names the units whose engine model tells no costs, with what to do, in tables and beside the document", async () => {
    const file = demoFile("engine-models.json");
    const text = readFileSync(file, "utf8");
    const document = JSON.parse(text) as { engineModels: { id: string; repairs?: object }[] };
    const engineModels = document.engineModels.map(({ repairs, ...model }) =>
      model.id === "diesel-6-a" ? model : { ...model, repairs },
    );
    const priceless = path.join(mkdtempSync(path.join(tmpdir(), "borecast-models-")), "engine-models.json");
    writeFileSync(priceless, JSON.stringify({ ...document, engineModels }));
    const without = demoArguments.map((one) => (one === file ? priceless : one));
    const run = (...more: string[]) =>
      borecast(folderWith(), ["budget", ...without, ...workshop, "--draws", "1000", ...more]);
    const says = /are not in the budget: no hours and parts of a repair are told of diesel-6-a\. Give them/;
    const [tables, json] = await Promise.all([run(), run("--json")]);
    expect(tables.output).toMatch(says);
    expect(json.errors).toMatch(says);
    const { leftOut } = budgetDocumentSchema.parse(JSON.parse(json.output));
    expect(leftOut?.map(({ engineModel, why }) => `${engineModel} ${why}`)).toContain("diesel-6-a no-costs");
  });

  it("prints tables, and refuses draws out of range", async () => {
    const { output, status, errors } = await budget(...workshop, "--draws", "1000", "--horizon-years", "2");
    expect(status).toBe(1);
    for (const words of [
      "Fiscal year 2026/27",
      "P80 less P50",
      "too few tests",
      "unplanned",
      "1,000 draws from seed 1",
    ])
      expect(output).toContain(words);
    expect(errors).toContain("The budget has 36 months, but the forecast looks 2.0 years ahead");
    const few = await budget("--draws", "10");
    expect(few).toMatchObject({ status: 2, output: "" });
    const half = await budget("--seed", "1.5");
    expect(half).toMatchObject({ status: 2, output: "" });
    expect(half.errors).toContain("--seed 1.5 is not possible; it must be a whole number from");
    expect(few.errors).toContain("--draws 10 is not possible; it must be a number from 1,000 to 200,000.");
  });
});
