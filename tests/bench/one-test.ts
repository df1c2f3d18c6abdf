import { mkdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { asOfDate } from "../../app/_jobs/as-of.ts";
import { assessUnits } from "../../app/_jobs/assess-units.ts";
import { commitImport } from "../../app/_jobs/commit-import.ts";
import { fleetKinds } from "../../app/_jobs/fleet-kinds.ts";
import { asFleetPools, keptPools } from "../../app/_jobs/kept-pools.ts";
import { stageImport } from "../../app/_jobs/stage-import.ts";
import { textSource } from "../../app/_jobs/text-source.ts";
import { table } from "../../cli/table.ts";
import { factsVersion } from "../../db/meta.ts";
import { readSettings } from "../../db/settings.ts";
import { openStore, type Store } from "../../db/store.ts";
import { numberWords } from "../../lib/wording.ts";
import { fillStore } from "./fleet-of.ts";
import { asOf, readingsOfUnit } from "./generate.ts";
import { mediansOf, timed } from "./sampling.ts";

/** What one unit's new test takes in a fleet whose pools stand. */
export interface OneTestFigures {
  readonly units: number;
  /** Reading, judging and comparing the sheet's rows. */
  readonly stage: number;
  /** Until all that follows from it is kept: the assessment, and the comparisons with sisters and between testers. */
  readonly commit: number;
  /** Of this the assessment alone: the unit's facts read, the unit assessed under the pools, its report kept. */
  readonly assess: number;
  /** What the assessment took of the processor, which other programs on the machine hardly change. */
  readonly assessProcessor: number;
}

/** Medians over so many units' tests, in fleets of several sizes. */
export async function measureOneTest(
  folder: string,
  sizes: readonly number[],
  rounds: number,
): Promise<OneTestFigures[]> {
  const figures: OneTestFigures[] = [];
  for (const units of sizes) {
    const data = path.join(folder, `one-test-${units}`);
    mkdirSync(data);
    const databaseFile = path.join(data, "borecast.db");
    await fillStore(folder, databaseFile, units);
    const results = readFileSync(path.join(folder, `results-${units * readingsOfUnit}.csv`), "utf8");
    const store = await openStore(databaseFile);
    try {
      const taken: Omit<OneTestFigures, "units">[] = [];
      // The first takes what a running server took long ago: code read, statements prepared.
      for (let round = 0; round <= rounds; round++) {
        const unit = 1 + Math.floor((round * (units - 1)) / rounds);
        const seconds = await takeSheet(store, `U-${unit}`, results);
        if (round > 0) taken.push(seconds);
      }
      figures.push({ units, ...mediansOf(taken) });
    } finally {
      await store.close();
    }
  }
  return figures;
}

async function takeSheet(store: Store, unit: string, results: string): Promise<Omit<OneTestFigures, "units">> {
  const act = { by: "Bench", now: new Date(`${asOf}T12:00:00Z`) };
  const sheet = textSource(`sheet-${unit}.csv`, sheetOf(unit, results));
  const staged = await timed(() => stageImport(store, [sheet], act));
  const committed = await timed(() => commitImport(store, staged.value.id, { ...act, takeChanges: false }, {}));
  const outcome = committed.value;
  if (!outcome.ok || outcome.value.units !== 1 || outcome.value.fittedKinds !== 0)
    throw new Error(`not one unit under kept pools: ${JSON.stringify(outcome)}`);
  return { stage: staged.seconds, commit: committed.seconds, ...(await assessAgain(store, unit, act.now)) };
}

/** The same unit once more, as a commit assesses it. */
async function assessAgain(store: Store, unit: string, now: Date) {
  const settings = await readSettings(store);
  const { usualMeterUnits } = await fleetKinds(store);
  const reassessment = {
    asOf: asOfDate(settings, now),
    settings,
    pools: asFleetPools(await keptPools(store)),
    usualMeterUnits,
    at: now.toISOString(),
    version: await factsVersion(store, store.q),
    because: "import",
    importId: null,
  } as const;
  const before = process.cpuUsage();
  const { seconds, value } = await timed(() => assessUnits(store, [unit], reassessment));
  const { user, system } = process.cpuUsage(before);
  if (value.units !== 1) throw new Error(`${value.units} units were assessed`);
  return { assess: seconds, assessProcessor: (user + system) / 1e6 };
}

/** A test of both measures on the as-of date: the unit's last readings, a hundred of its meter later. */
function sheetOf(unit: string, results: string): string {
  const lines = results.split("\n");
  const last = lines.filter((line) => line.startsWith(`${unit},`)).slice(-8);
  const rows = last.map((line) => {
    const [of, model, , meter, ...rest] = line.split(",");
    return [of, model, asOf, String(Number(meter) + 100), ...rest].join(",");
  });
  return [lines[0], ...rows, ""].join("\n");
}

const milliseconds = (seconds: number): string => `${(1000 * seconds).toFixed(0)} ms`;

export const oneTestTable = (figures: readonly OneTestFigures[]): string =>
  table(
    [
      "one unit's new test, units",
      "staged",
      "committed, all kept",
      "assessment alone (at most 100 ms)",
      "its processor time",
    ],
    figures.map(({ units, stage, commit, assess, assessProcessor }) => [
      numberWords(units),
      milliseconds(stage),
      milliseconds(commit),
      milliseconds(assess),
      milliseconds(assessProcessor),
    ]),
    [0, 1, 2, 3, 4],
  );
