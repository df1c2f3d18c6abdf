import { cpus, totalmem } from "node:os";
import { table } from "../../cli/table.ts";
import { numberWords } from "../../lib/wording.ts";
import type { AssessFigures } from "./assess.ts";
import type { CommandUsage } from "./command-usage.ts";
import type { ResultsFile } from "./generate.ts";
import type { ImportSeconds, ImportUsage } from "./import.ts";

/** The bench's figures as tables. */

const secondsWords = (seconds: number): string => `${seconds.toFixed(seconds < 1 ? 3 : seconds < 10 ? 2 : 1)} s`;
const gigabyteWords = (gb: number): string => `${gb.toFixed(2)} GB`;
const timesWords = (times: number): string => times.toFixed(2);

export function importTable({ readings, units }: ResultsFile, seconds: ImportSeconds): string {
  const floor = seconds.parse + seconds.insert;
  const line = (name: string, taken: number) => [
    name,
    secondsWords(taken),
    numberWords(readings / taken),
    timesWords(taken / floor),
  ];
  const rows = [
    line("papaparse alone", seconds.parse),
    line("prepared inserts alone", seconds.insert),
    line("floor: these two", floor),
    line("staging", seconds.stage),
    line("commit", seconds.commit),
    line("import: these two (at most 2 floors)", seconds.stage + seconds.commit),
    line(`assessment of the ${numberWords(units)} units, counted in neither`, seconds.assess),
  ];
  return table([`import of ${numberWords(readings)} readings`, "time", "rows/s", "floors"], rows, [1, 2, 3]);
}

/** What the command takes in processes of its own, until its rows are staged and until all is assessed. */
export function importMemoryTable({ readings, units }: ResultsFile, { dryRun, whole }: ImportUsage): string {
  const row = (name: string, { peakBytes, seconds }: CommandUsage) => [
    name,
    `${numberWords(peakBytes / 1e6)} MB`,
    secondsWords(seconds),
  ];
  const rows = [
    row("read, judged and staged (at most 400 MB)", dryRun),
    row(`and ${numberWords(units)} units assessed and compared`, whole),
  ];
  return table([`borecast import of ${numberWords(readings)} readings`, "peak memory", "time"], rows, [1, 2]);
}

/** @param half the same at half as many readings */
export function assessTable({ readings }: ResultsFile, whole: AssessFigures, half: AssessFigures): string {
  const line = (name: string, of: (figures: AssessFigures) => number, words: (value: number) => string) => [
    name,
    words(of(half)),
    words(of(whole)),
    timesWords(of(whole) / of(half)),
  ];
  const timesRegression = (figures: AssessFigures) => numberWords(figures.seconds / figures.regression);
  const rows = [
    line("borecast assess --json (at most 60 s)", (f) => f.seconds, secondsWords),
    line("its processor time, all threads", (f) => f.processorSeconds, secondsWords),
    line("its peak memory (at most 2 GB)", (f) => f.peakGb, gigabyteWords),
    line("simple-statistics linear regression alone", (f) => f.regression, secondsWords),
    ["assess, times that regression", timesRegression(half), timesRegression(whole)],
  ];
  const header = ["readings", numberWords(readings / 2), numberWords(readings), "growth"];
  return table(header, rows, [1, 2, 3]);
}

export function machineLine(): string {
  const processors = cpus();
  const model = processors[0]?.model.trim() ?? "unknown processor";
  return `${model}, ${processors.length} cores, ${(totalmem() / 2 ** 30).toFixed(0)} GiB memory, Node ${process.version}`;
}
