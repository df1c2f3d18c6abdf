import { beforeAll, describe, expect, it } from "vitest";
import { trackRecordSchema } from "@/lib/schema/track-record.ts";
import { borecast, buildCommand, compression, csv, folderWith, kpaLine, models } from "./command.ts";

beforeAll(buildCommand);

const fleet = Array.from({ length: 6 }, (_, i) => compression(`B-${i + 1}`, { fall: 15 + 3 * i })).flat();
const lines = fleet.map(kpaLine);

function backtest(files: Readonly<Record<string, string>>, ...more: readonly string[]) {
  const folder = folderWith({ "models.json": models, ...files });
  return borecast(folder, ["backtest", ...Object.keys(files), "--models", "models.json", ...more]);
}

describe("borecast backtest", () => {
  it("prints one document of its schema, the same bytes for rows in another order", async () => {
    const first = await backtest({ "a.csv": csv(lines) }, "--json");
    expect(first).toMatchObject({ status: 0, errors: "" });
    const record = trackRecordSchema.parse(JSON.parse(first.output));
    expect(record).toMatchObject({
      schemaVersion: 1,
      asOf: "2024-09-15",
      units: { judged: 6, known: 6 },
      issued: null,
    });
    // Six tests a unit: the third, fourth and fifth have three before and one after.
    expect(record.forecasts).toBe(18);
    expect(record.levels.map(({ measure }) => measure)).toEqual(["compression-dry"]);
    const other = await backtest({ "a.csv": csv(lines.toReversed()) }, "--json");
    expect(other.output).toBe(first.output);
  });

  it("prints tables: counts where outcomes are few, the others beside it, and what misses had in common", async () => {
    const { output, status } = await backtest({ "a.csv": csv(lines) });
    expect(status).toBe(0);
    expect(output).toContain("18 forecasts of 6 units");
    expect(output).toMatch(/Borecast +18 +\d+ +\d+ of \d+/);
    for (const words of ["straight-line trend", "same as last time", "fixed interval", "can’t be told yet"]) {
      expect(output).toContain(words);
    }
  });

  it("knows nothing after --as-of, and says so where the past is too short", async () => {
    const early = lines.filter((line) => line.includes("2022-"));
    const cut = await backtest({ "a.csv": csv(lines) }, "--json", "--as-of", "2022-12-31");
    const alone = await backtest({ "a.csv": csv(early) }, "--json", "--as-of", "2022-12-31");
    expect(cut.output).toBe(alone.output);
    const table = await backtest({ "a.csv": csv(early) });
    expect(table.output).toContain("nothing to tell yet");
  });

  it("names refused rows by its exit status, and refuses what assess refuses, under its own name", async () => {
    const bad = await backtest({ "a.csv": csv([...lines, "B-1,petrol-4-a,soon"]) }, "--json");
    expect(bad.status).toBe(1);
    expect(bad.errors).toContain("a.csv, line");
    expect(trackRecordSchema.parse(JSON.parse(bad.output)).forecasts).toBe(18);
    const none = await borecast(folderWith({ "models.json": models }), ["backtest", "--models", "models.json"]);
    expect(none).toMatchObject({ status: 2, output: "" });
    expect(none.errors).toContain("See borecast backtest --help");
    const help = await borecast(folderWith(), ["backtest", "--help"]);
    expect(help.output).toContain("--as-of DATE");
  });
});
