import { assessUnit } from "../../../lib/assess.ts";
import type { FleetPools } from "../../../lib/assessment/pools.ts";
import { fitFleet } from "../../../lib/comparison/instrument-biases.ts";
import { factAssembler } from "../../../lib/intake/assemble.ts";
import { readFleetFile } from "../../../lib/intake/read-file.ts";
import type { UnitAssessment } from "../../../lib/schema/assessment.ts";
import { engineModelFileSchema } from "../../../lib/schema/engine-model.ts";
import type { FleetFacts } from "../../../lib/schema/facts.ts";
import { settingsSchema } from "../../../lib/schema/settings.ts";
import { indexFleet } from "../../../lib/sealing/seal.ts";
import { engineModels, type Fleet, horizonYears } from "./simulate.ts";

async function* bytesOf(text: string): AsyncGenerator<Uint8Array> {
  yield new TextEncoder().encode(text);
}

const models = new Map(
  engineModelFileSchema.parse(engineModels).engineModels.map((model) => [model.id, model] as const),
);

const settings = settingsSchema.parse({ horizonYears });

async function readFacts({ files }: Pick<Fleet, "files">): Promise<FleetFacts> {
  const known = { models, units: new Map(), today: null };
  const assembler = factAssembler(known);
  for (const [file, text] of Object.entries(files)) {
    for await (const chunk of readFleetFile({ source: bytesOf(text), file, known })) {
      const refused = chunk.issues.find((issue) => issue.severity === "refused");
      if (refused) throw new Error(`${file} was refused: ${JSON.stringify(refused)}`);
      assembler.add(chunk);
    }
  }
  return assembler.finish().facts;
}

/** What the app says of a fleet's files on a day: read, sealed, pooled and assessed as `borecast assess` does. */
export async function assessFleet(fleet: Pick<Fleet, "files">, asOf: string): Promise<UnitAssessment[]> {
  const index = indexFleet(await readFacts(fleet), { asOf });
  const pools = fitFleet(index, asOf);
  return index.units.map((unit) => assessUnit(index, unit, { asOf, settings, pools }).assessment);
}

/**
 * Runs a fleet forward as the app sees it: on the days of `fits` the pools are fitted and all units assessed, and on each
 * day of a test the units that were tested, under the pools of the last fit.
 */
export async function* lookForward(
  fleet: Fleet,
  fits: readonly string[],
): AsyncGenerator<{ readonly day: string; readonly units: readonly UnitAssessment[] }> {
  const facts = await readFacts(fleet);
  const fitted = new Set(fits);
  const days = [...new Set([...fits, ...fleet.units.flatMap((unit) => unit.testDates)])].toSorted();
  let pools: FleetPools | null = null;
  for (const day of days) {
    const index = indexFleet(facts, { asOf: day });
    if (pools === null || fitted.has(day)) pools = fitFleet(index, day);
    const tested = new Set(fleet.units.flatMap(({ unit, testDates }) => (testDates.includes(day) ? [unit] : [])));
    const looked = index.units.filter(({ unit }) => fitted.has(day) || tested.has(unit));
    const options = { asOf: day, settings, pools };
    yield { day, units: looked.map((unit) => assessUnit(index, unit, options).assessment) };
  }
}
