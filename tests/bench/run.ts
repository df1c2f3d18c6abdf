import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { ensureCommand } from "../../cli/setup/build.mjs";
import { measureAssess } from "./assess.ts";
import { coverageOf, fleetKinds } from "./coverage.ts";
import { writeResults } from "./generate.ts";
import { measureImport } from "./import.ts";
import { assessTable, coverageTable, importTable, machineLine } from "./print.ts";

/** Measures Borecast beside the least that the same work must cost, and how well its ranges hold; prints the tables. */

const importReadings = 100_000;
const assessReadings = 1_000_000;
const importRounds = 5;
const assessRounds = 3;
const simulatedEngines = 450;

const folder = mkdtempSync(path.join(tmpdir(), "borecast-bench-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => process.exit(1));

await ensureCommand();
console.log(`Medians of ${importRounds} rounds of import and ${assessRounds} of assess, the sides of each in turn.\n`);

const toImport = await writeResults(folder, importReadings);
console.log(importTable(toImport, await measureImport(folder, toImport, importRounds)));

const half = await writeResults(folder, assessReadings / 2);
const whole = await writeResults(folder, assessReadings);
const [ofHalf, ofWhole] = await measureAssess(folder, [half, whole], assessRounds);
console.log(assessTable(whole, ofWhole!, ofHalf!));

const fleets = fleetKinds.map((kind) => {
  const seeds = Array.from({ length: simulatedEngines / kind.engines }, (_, i) => i + 1);
  return coverageOf(kind, ...seeds);
});
console.log(coverageTable(fleets));
console.log(machineLine());
