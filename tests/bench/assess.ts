import { closeSync, openSync, readFileSync } from "node:fs";
import path from "node:path";
import { commandUsage } from "./command-usage.ts";
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

/** Runs `borecast assess --json` on the file, its document written to another. Throws where it leaves a unit out. */
async function runAssess(folder: string, { results, models, units }: ResultsFile) {
  const document = path.join(folder, "assessments.json");
  const out = openSync(document, "w");
  const options = ["--models", models, "--as-of", asOf, "--json"];
  const { status, ...usage } = await commandUsage(["assess", results, ...options], { output: out });
  closeSync(out);
  const assessed = countUnits(readFileSync(document));
  if (status !== 0 || assessed !== units) throw new Error(`assess ended with ${status} and ${assessed} units`);
  return usage;
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
