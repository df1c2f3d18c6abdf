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
