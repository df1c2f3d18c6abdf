import { rmSync } from "node:fs";
import path from "node:path";
import { commitImport } from "../../app/_jobs/commit-import.ts";
import { fileSource } from "../../app/_jobs/file-source.ts";
import type { Progress } from "../../app/_jobs/progress.ts";
import { stageImport } from "../../app/_jobs/stage-import.ts";
import { openStore } from "../../db/store.ts";
import { type CommandUsage, commandUsage } from "./command-usage.ts";
import { asOf, type ResultsFile } from "./generate.ts";
import { type Imported, insertAlone, parseAlone, readImported } from "./import-floor.ts";
import { mediansOf, timed } from "./sampling.ts";

export interface ImportSeconds {
  readonly parse: number;
  readonly insert: number;
  readonly stage: number;
  /** Until the import's rows are visible and the pools come next. */
  readonly commit: number;
  /** Pools fitted, all units assessed and their reports kept. */
  readonly assess: number;
}

const act = { by: "Bench", now: new Date(`${asOf}T12:00:00Z`) };

/** The jobs that the Import page and `borecast import` run, into a new database. */
async function importOnce(databaseFile: string, file: ResultsFile): Promise<Omit<ImportSeconds, "parse" | "insert">> {
  const store = await openStore(databaseFile);
  try {
    const sources = [await fileSource(file.results), await fileSource(file.models)];
    const staged = await timed(() => stageImport(store, sources, act));
    const { newRows, refusedRows } = staged.value;
    // The engine model is a row of its own.
    if (newRows !== file.readings + 1 || refusedRows > 0)
      throw new Error(`${newRows} rows are new, ${refusedRows} refused`);
    let committedAt = 0;
    const onProgress = ({ phase }: Progress) => {
      if (phase !== "committing") committedAt ||= performance.now();
    };
    const start = performance.now();
    const outcome = await commitImport(store, staged.value.id, { ...act, takeChanges: false }, { onProgress });
    const end = performance.now();
    if (!outcome.ok || outcome.value.units !== file.units) throw new Error(`not committed: ${JSON.stringify(outcome)}`);
    return { stage: staged.seconds, commit: (committedAt - start) / 1000, assess: (end - committedAt) / 1000 };
  } finally {
    await store.close();
  }
}

/** `borecast import` of the file, in a process of its own for each: what it would bring alone, and to its end. */
export interface ImportUsage {
  /** All that is done to read, judge and stage the rows; what a commit does beside it takes no memory to speak of. */
  readonly dryRun: CommandUsage;
  /** Assessments and comparisons included. */
  readonly whole: CommandUsage;
}

export async function importAlone(folder: string, { results, models }: ResultsFile): Promise<ImportUsage> {
  const data = path.join(folder, "import-alone");
  const usageOf = async (...options: readonly string[]) => {
    try {
      const args = ["import", results, models, ...options];
      const usage = await commandUsage(args, { out: "ignore", env: { BORECAST_DATA: data } });
      if (usage.status !== 0) throw new Error(`import ended with ${usage.status}`);
      return usage;
    } finally {
      rmSync(data, { recursive: true, force: true });
    }
  };
  return { dryRun: await usageOf("--dry-run"), whole: await usageOf() };
}

/** Medians of an import and of its floor, taken in turn; every round has databases of its own. */
export async function measureImport(folder: string, file: ResultsFile, rounds: number): Promise<ImportSeconds> {
  let imported: Imported | null = null;
  const databaseFile = path.join(folder, "bench.sqlite");
  const clear = () => {
    for (const end of ["", "-wal", "-shm"]) rmSync(databaseFile + end, { force: true });
  };
  const taken: ImportSeconds[] = [];
  while (taken.length < rounds) {
    const ours = await importOnce(databaseFile, file);
    imported ??= readImported(databaseFile);
    clear();
    const parse = await timed(() => parseAlone(file.results));
    if (parse.value !== file.readings) throw new Error(`papaparse read ${parse.value} rows`);
    const insert = await insertAlone(databaseFile, imported);
    clear();
    taken.push({ ...ours, parse: parse.seconds, insert });
  }
  return mediansOf(taken);
}
