import { createWriteStream, writeFileSync } from "node:fs";
import path from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { type Random, seededRandom } from "../../demo-data/random.ts";
import { addDays } from "../../lib/calendar.ts";
import { engineModelFileSchema } from "../../lib/schema/engine-model.ts";

/** Made-up files of test results for the bench, the same bytes each time. */

const cylinders = [1, 2, 3, 4] as const;
const testsOfUnit = 10;
export const readingsOfUnit = testsOfUnit * 2 * cylinders.length;
const daysBetweenTests = 230;

/** The date that the files are judged for; the last test of every unit lies some weeks before it. */
export const asOf = "2026-08-31";

const engineModels = engineModelFileSchema.parse({
  schemaVersion: 1,
  engineModels: [
    {
      id: "bench-4",
      cylinders: cylinders.length,
      neighbours: [
        [1, 2],
        [2, 3],
        [3, 4],
      ],
      compression: { newKpa: 1250, minimumKpa: 900, spreadPercent: 25, referenceRpm: 200 },
      leakDown: {
        watchPercent: 10,
        planPercent: 20,
        limitPercent: 30,
        valves: { watchPercent: 8, planPercent: 12, limitPercent: 18 },
      },
      testInterval: { meter: 500, days: 365 },
    },
  ],
});

export interface ResultsFile {
  readonly results: string;
  readonly models: string;
  readonly readings: number;
  readonly units: number;
}

/**
 * Writes test results of units of ten years' service with their engine models: leak-down and compression of four
 * cylinders, ten times each unit. Fewer readings give the beginning of the same file. `readings` is a multiple of 80.
 */
export async function writeResults(folder: string, readings: number): Promise<ResultsFile> {
  const units = readings / readingsOfUnit;
  if (!Number.isInteger(units)) throw new Error(`${readings} readings are not a whole number of units`);
  const results = path.join(folder, `results-${readings}.csv`);
  const models = path.join(folder, "engine-models.json");
  writeFileSync(models, JSON.stringify(engineModels));
  await pipeline(Readable.from(fleetLines(units)), createWriteStream(results));
  return { results, models, readings, units };
}

function* fleetLines(units: number): Generator<string> {
  const random = seededRandom(5);
  yield "unit,engine_model,test_date,meter,meter_unit,test,cylinder,value,value_unit,heard_at,tested_by,instrument\n";
  for (let unit = 1; unit <= units; unit++) yield unitLines(unit, random);
}

function unitLines(unit: number, random: Random): string {
  const gaps = Array.from({ length: testsOfUnit }, () => Math.round(daysBetweenTests * random.between(0.7, 1.3)));
  const firstMeter = random.between(500, 3000);
  const [leakage, leakagePerHour] = [random.between(5, 12), random.between(0.3, 2.5) / 1000];
  const own = cylinders.map(() => [random.normal(0, 1), random.normal(0, 0.4) / 1000] as const);
  let daysAhead = gaps.reduce((sum, gap) => sum + gap, random.whole(5, 90));
  let meter = firstMeter;
  let lines = "";
  for (const gap of gaps) {
    daysAhead -= gap;
    meter += gap * random.between(1.5, 3.5);
    const start = `${unit},bench-4,${addDays(asOf, -daysAhead)},${meter.toFixed(0)},h`;
    const end = `R. Ames,T${unit % 7}\n`;
    const [leakageOfTest, pressureOfTest] = [random.normal(0, 1.5), random.normal(0, 30)];
    const level = (i: number) => leakage + own[i]![0] + (leakagePerHour + own[i]![1]) * (meter - firstMeter);
    for (const [i, cylinder] of cylinders.entries()) {
      const percent = Math.min(100, Math.max(0, Math.round(level(i) + leakageOfTest + random.normal(0, 1.2))));
      lines += `U-${start},leak-down,${cylinder},${percent},%,crankcase,${end}`;
    }
    for (const [i, cylinder] of cylinders.entries()) {
      const kpa = Math.round(1230 - 6 * level(i) + pressureOfTest + random.normal(0, 18));
      lines += `U-${start},compression-dry,${cylinder},${kpa},kPa,,${end}`;
    }
  }
  return lines;
}
