import { spawn } from "node:child_process";
import { once } from "node:events";
import { closeSync, openSync, readFileSync } from "node:fs";
import path from "node:path";
import type { Readable } from "node:stream";
import { text } from "node:stream/consumers";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import { commandFile } from "../../cli/setup/place.mjs";
import { asOf, type ResultsFile } from "./generate.ts";
import { type AllSeries, readSeries, regressAlone } from "./regression.ts";
import { median, mediansOf } from "./sampling.ts";

export interface AssessFigures {
  /** Of the command's process, from start to exit. */
  readonly seconds: number;
  /** Of all its threads; more than `seconds` where they work side by side, less where other programs were in the way. */
  readonly processorSeconds: number;
  /** Its peak resident memory. */
  readonly peakGb: number;
  /** Seconds of linear regression alone. */
  readonly regression: number;
}

const usageReporter = fileURLToPath(new URL("./report-usage.mjs", import.meta.url));

const usageSchema = z.object({ peakKib: z.number(), processorMicroseconds: z.number() });

/** Runs `borecast assess --json` on the file, its document written to another. Throws where it leaves a unit out. */
async function runAssess(folder: string, { results, models, units }: ResultsFile) {
  const document = path.join(folder, "assessments.json");
  const out = openSync(document, "w");
  const options = ["--models", models, "--as-of", asOf, "--json"];
  const start = performance.now();
  const child = spawn(process.execPath, ["--import", usageReporter, commandFile, "assess", results, ...options], {
    stdio: ["ignore", out, "inherit", "pipe"],
  });
  const usageJson = text(child.stdio[3] as Readable);
  const [status] = await once(child, "exit");
  const seconds = (performance.now() - start) / 1000;
  closeSync(out);
  const assessed = countUnits(readFileSync(document));
  if (status !== 0 || assessed !== units) throw new Error(`assess ended with ${status} and ${assessed} units`);
  const usage = usageSchema.parse(JSON.parse(await usageJson));
  return { seconds, processorSeconds: usage.processorMicroseconds / 1e6, peakGb: (usage.peakKib * 1024) / 1e9 };
}

/** The document has a line for each unit, and one at each end. Too long for one string. */
function countUnits(document: Buffer): number {
  let lines = 0;
  for (let at = document.indexOf("\n"); at >= 0; at = document.indexOf("\n", at + 1)) lines++;
  return lines - 2;
}

/** Medians of the command and of straight lines through the same series, for each of the files in turn. */
export async function measureAssess(
  folder: string,
  files: readonly ResultsFile[],
  rounds: number,
): Promise<AssessFigures[]> {
  const sides: { file: ResultsFile; all: AllSeries; taken: AssessFigures[] }[] = [];
  for (const file of files) sides.push({ file, all: await readSeries(file.results), taken: [] });
  for (let round = 0; round < rounds; round++) {
    for (const { file, all, taken } of sides) {
      const command = await runAssess(folder, file);
      // Milliseconds each, so that one alone would mostly tell of the machine.
      const regressions = Array.from({ length: 9 }, () => regressAlone(all));
      taken.push({ ...command, regression: median(regressions) });
    }
  }
  return sides.map(({ taken }) => mediansOf(taken));
}
