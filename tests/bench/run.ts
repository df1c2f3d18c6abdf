import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { ensureCommand, ensurePages } from "../../cli/setup/build.mjs";
import { measureAssess } from "./assess.ts";
import { measureSpread, spreadTable } from "./budget.ts";
import { writeResults } from "./generate.ts";
import { importAlone, measureImport } from "./import.ts";
import { measureOneTest, oneTestTable } from "./one-test.ts";
import { measurePages } from "./pages.ts";
import { measurePlans, planTable } from "./plan.ts";
import { assessTable, importMemoryTable, importTable, machineLine } from "./print.ts";
import { pagesTable } from "./print-pages.ts";
import { slipsTable } from "./print-slips.ts";
import { scheduledVisits } from "./slip-fleet.ts";
import { slipRates } from "./slips.ts";
import { backTestTable, measureBackTest } from "./track.ts";

/**
 * Measures Borecast beside the least that the same work must cost; prints the tables.
 * `npm run bench -- pages` runs one part or several of them.
 */

const importReadings = 100_000;
const largeReadings = 1_000_000;
/** Minutes each, and many small transactions even out by themselves. */
const largeRounds = 1;
const assessReadings = 1_000_000;
const importRounds = 5;
const assessRounds = 3;
const unitsOfGauge = 600;
const backTestUnits = [25, 50, 100, 400] as const;
const backTestRounds = 3;
const planSizes = [
  { units: 300, depots: 3, weeks: 52, gap: 0.001, seconds: 60 },
  { units: 2_000, depots: 12, weeks: 52, gap: 0.001, seconds: 300 },
  { units: 2_000, depots: 12, weeks: 104, gap: 0.001, seconds: 300 },
] as const;
const seedPairs = 20;
const drawCounts = [10_000, 40_000] as const;
const oneTestSizes = [400, 2_000] as const;
const oneTestRounds = 15;
const pageSizes = [40, 400, 2_000] as const;
const pageRounds = 31;

const folder = mkdtempSync(path.join(tmpdir(), "borecast-bench-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => process.exit(1));

const parts = {
  import: async () => {
    const toImport = await writeResults(folder, importReadings);
    console.log(importTable(toImport, await measureImport(folder, toImport, importRounds)));
    const large = await writeResults(folder, largeReadings);
    console.log(importTable(large, await measureImport(folder, large, largeRounds)));
    console.log(importMemoryTable(large, await importAlone(folder, large)));
  },
  assess: async () => {
    const half = await writeResults(folder, assessReadings / 2);
    const whole = await writeResults(folder, assessReadings);
    const [ofHalf, ofWhole] = await measureAssess(folder, [half, whole], assessRounds);
    console.log(assessTable(whole, ofWhole!, ofHalf!));
  },
  unit: async () => {
    console.log(oneTestTable(await measureOneTest(folder, oneTestSizes, oneTestRounds)));
  },
  slips: async () => {
    console.log(slipsTable(slipRates(unitsOfGauge, 7), unitsOfGauge * scheduledVisits * 2));
  },
  track: async () => {
    console.log(backTestTable(await measureBackTest(folder, backTestUnits, backTestRounds)));
  },
  plan: async () => {
    console.log(planTable(await measurePlans(planSizes)));
  },
  budget: async () => {
    console.log(spreadTable(await measureSpread(seedPairs, drawCounts), seedPairs));
  },
  pages: async () => {
    await ensurePages(console.log);
    console.log(pagesTable(await measurePages(folder, pageSizes, pageRounds)));
  },
};

const names = Object.keys(parts) as (keyof typeof parts)[];
const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !(name in parts));
if (unknown.length > 0) {
  console.error(`No part of the bench is called ${unknown.join(", ")}. Its parts: ${names.join(", ")}.`);
  process.exit(2);
}

await ensureCommand();
console.log(
  `Medians of ${importRounds} rounds of import, ${assessRounds} of assess and ${pageRounds} of pages, the sides of each in turn.\n`,
);
for (const name of names) if (asked.length === 0 || asked.includes(name)) await parts[name]();
console.log(machineLine());
