import { guarded } from "../app/_jobs/guarded.ts";
import { assessUnit } from "../lib/assess.ts";
import { fitFleet } from "../lib/comparison/instrument-biases.ts";
import type { FleetFacts, IsoDate } from "../lib/schema/facts.ts";
import { settingsSchema } from "../lib/schema/settings.ts";
import { indexFleet } from "../lib/sealing/seal.ts";
import { numberWords } from "../lib/wording.ts";
import { readAssessOptions } from "./assess-options.ts";
import { fleetTable, type TableRow, tableRow } from "./fleet-table.ts";
import { readFleet } from "./read-fleet.ts";
import { bar, print, progressLine, tell } from "./terminal.ts";

const progress = progressLine();

/** `borecast assess`: stateless; the contract fixes its options, its JSON and its exit status. */
export async function assess(args: readonly string[]): Promise<number> {
  const options = readAssessOptions("assess", args);
  const { facts, asOf, refused } = await readFleet(options, "assess", progress);
  const left = await printAssessment(facts, { asOf, horizonYears: options.horizonYears, json: options.json });
  return refused > 0 || left > 0 ? 1 : 0;
}

interface Printing {
  readonly asOf: IsoDate;
  readonly horizonYears: number;
  readonly json: boolean;
}

/**
 * Unit by unit, so that no more than one lies in memory: a line of JSON each, or a row of the table. Names each unit
 * that cannot be assessed, goes on with the others, and gives how many those were.
 */
async function printAssessment(facts: FleetFacts, { asOf, horizonYears, json }: Printing): Promise<number> {
  const settings = settingsSchema.parse({ horizonYears });
  progress.show("Putting the tests in order …");
  const index = indexFleet(facts, { asOf });
  for (const problem of index.problems) tell(problem);
  const pools = fitFleet(index, asOf);
  const rows: TableRow[] = [];
  let left = 0;
  if (json) await print(`{"schemaVersion":1,"asOf":"${asOf}","units":[`);
  for (const [i, unit] of index.units.entries()) {
    const assessed = guarded(`the unit ${unit.unit}`, () => assessUnit(index, unit, { asOf, settings, pools }));
    if (!assessed.ok) {
      progress.clear();
      tell(`${assessed.error.words}.`);
      left += 1;
      continue;
    }
    const { assessment } = assessed.value;
    if (json) await print(`${i === left ? "\n" : ",\n"}${JSON.stringify(assessment)}`);
    else rows.push(tableRow(assessment));
    progress.show(`Assessing  ${bar((i + 1) / index.units.length)}  ${numberWords(i + 1)} units`);
  }
  progress.clear();
  await print(json ? "\n]}\n" : fleetTable(rows, asOf));
  return left;
}
