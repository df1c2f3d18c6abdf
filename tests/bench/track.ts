import { readdirSync } from "node:fs";
import path from "node:path";
import { table } from "../../cli/table.ts";
import { numberWords } from "../../lib/wording.ts";
import { type CommandUsage, commandUsage } from "./command-usage.ts";
import { asOf, readingsOfUnit, writeResults } from "./generate.ts";
import { mediansOf } from "./sampling.ts";

/** What `borecast backtest` takes: of the demo fleet, and how it grows with the units of a kind, and beyond the most judged. */

const demo = path.resolve(import.meta.dirname, "../../demo-data");
const others = ["units", "depots", "repairs", "meters", "checks"] as const;

export interface BackTestFigures {
  readonly fleet: string;
  readonly units: number;
  readonly seconds: number;
  readonly processorSeconds: number;
  readonly peakBytes: number;
}

async function measured(args: readonly string[], rounds: number): Promise<Omit<BackTestFigures, "fleet" | "units">> {
  const taken: Omit<CommandUsage, "status">[] = [];
  for (let round = 0; round < rounds; round++) {
    const { status, ...usage } = await commandUsage(["backtest", ...args, "--json"], { out: "ignore" });
    if (status !== 0 && status !== 1) throw new Error(`backtest ended with ${status}`);
    taken.push(usage);
  }
  return mediansOf(taken);
}

/** Medians of the command on the demo fleet and on made-up fleets of so many units of one kind. */
export async function measureBackTest(
  folder: string,
  sizes: readonly number[],
  rounds: number,
): Promise<BackTestFigures[]> {
  const tests = readdirSync(demo).filter((name) => name.startsWith("tests-") && name.endsWith(".csv"));
  const demoArguments = [
    ...tests.map((name) => path.join(demo, name)),
    "--models",
    path.join(demo, "engine-models.json"),
    ...others.flatMap((kind) => [`--${kind}`, path.join(demo, `${kind}.csv`)]),
    "--as-of",
    asOf,
  ];
  const figures: BackTestFigures[] = [{ fleet: "demo", units: 40, ...(await measured(demoArguments, rounds)) }];
  for (const units of sizes) {
    const { results, models } = await writeResults(folder, units * readingsOfUnit);
    const args = [results, "--models", models, "--as-of", asOf];
    figures.push({ fleet: "made up, one kind", units, ...(await measured(args, rounds)) });
  }
  return figures;
}

export const backTestTable = (figures: readonly BackTestFigures[]): string =>
  table(
    ["back-test", "units", "time", "processor", "memory"],
    figures.map(({ fleet, units, seconds, processorSeconds, peakBytes }) => [
      fleet,
      numberWords(units),
      `${seconds.toFixed(1)} s`,
      `${processorSeconds.toFixed(1)} s`,
      `${numberWords(peakBytes / 1e6)} MB`,
    ]),
    [1, 2, 3, 4],
  );
