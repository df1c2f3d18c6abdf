import { finishStaging } from "../../db/comparison.ts";
import { hasFacts } from "../../db/facts.ts";
import { knownFleet } from "../../db/fleet-known.ts";
import { discardImport } from "../../db/import-state.ts";
import { addImportIssues, beginImport, type ImportDetail, importDetail } from "../../db/imports.ts";
import { readSettings } from "../../db/settings.ts";
import { stageFacts } from "../../db/staging-facts.ts";
import { stageTests } from "../../db/staging-tests.ts";
import type { Store } from "../../db/store.ts";
import { fewRepeats } from "../../lib/intake/few-repeats.ts";
import { mergeDepots } from "../../lib/intake/merge-facts.ts";
import { reconcileUnit } from "../../lib/intake/reconcile-unit.ts";
import type { UnitRows } from "../../lib/intake/unit-rows.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import type { TestFact } from "../../lib/schema/facts.ts";
import type { RowIssue } from "../../lib/schema/intake.ts";
import type { Settings } from "../../lib/schema/settings.ts";
import { lastDateTaken } from "./as-of.ts";
import { type ImportSource, inReadingOrder } from "./import-source.ts";
import { knownBefore } from "./known-before.ts";
import { type Act, breather, doerOf, type JobControl, progressOf } from "./progress.ts";
import { type ReadSources, readSources } from "./read-sources.ts";
import { type UnitSpool, unitSpool } from "./unit-spool.ts";

const issuesAtATime = 1000;
/** One transaction; other work of this process waits for it. */
const readingsAtATime = 2000;

/**
 * Reads files of any kinds, given together, into an import that waits to be committed or discarded: nothing of it is
 * visible. Memory does not grow with the files. Rows are judged as `assess` judges them, beside what the store knows of
 * their unit; the order of files and rows makes no difference. Gives the import with its counts and those of each file;
 * its issues and changed rows are asked of the store. A file that cannot be read as text is refused with an issue; one
 * whose bytes cannot be had, a cancel or any other failure takes the whole import back. `settings`: those that will come
 * with the import; left out, those in force tell which dates may be taken.
 */
export async function stageImport(
  store: Store,
  given: readonly ImportSource[],
  act: Act,
  control: JobControl = {},
  settings?: Pick<Settings, "asOf" | "timeZone">,
): Promise<ImportDetail> {
  const sources = await inReadingOrder(given);
  const doer = doerOf(act);
  const files = sources.map(({ name, bytes }) => ({ name, bytes }));
  const importId = await beginImport(store, { ...doer, files });
  const spool = unitSpool();
  const issues = issueWriter(store, importId);
  try {
    const known = await knownFleet(store, { today: lastDateTaken(settings ?? (await readSettings(store)), act.now) });
    const read = await readSources(store, sources, { importId, known, spool, tell: issues.tell }, control);
    for (const { file, model } of read.models) await stageFacts(store, importId, { models: { file, models: [model] } });
    const depots = mergeDepots(read.depots);
    await issues.tell(depots.issues);
    await stageFacts(store, importId, { depots: depots.depots });
    const models = new Map([...known.models, ...read.models.map(({ model }) => [model.id, model] as const)]);
    await stageUnits({ store, importId, models, spool, read, tell: issues.tell }, control);
    await issues.end();
    control.onProgress?.(progressOf("comparing"));
    await finishStaging(store, importId);
    control.signal?.throwIfAborted();
    return (await importDetail(store, importId)) as ImportDetail;
  } catch (error) {
    await discardImport(store, importId, doer);
    throw error;
  } finally {
    await spool.close();
  }
}

interface Staging {
  readonly store: Store;
  readonly importId: string;
  readonly models: ReadonlyMap<string, EngineModel>;
  readonly spool: UnitSpool;
  readonly read: ReadSources;
  readonly tell: (issues: readonly RowIssue[]) => Promise<void>;
}

/** What needs all rows of a unit, judged unit by unit; what is accepted is staged. */
async function stageUnits(staging: Staging, { onProgress, signal }: JobControl): Promise<void> {
  const { store, importId, models, spool, read, tell } = staging;
  const breathe = breather(signal);
  const repeats = fewRepeats();
  const isEmpty = !(await hasFacts(store));
  const totalUnits = spool.units();
  let units = 0;
  for await (const spooled of spool.batches()) {
    const batch = read.refused.size === 0 ? spooled : spooled.map((rows) => without(rows, read.refused));
    const before = isEmpty ? null : await knownBefore(store, batch);
    let tests: TestFact[] = [];
    let readings = 0;
    const others: Pick<UnitRows, "units" | "repairs" | "meterReadings" | "checks">[] = [];
    const write = async () => {
      if (tests.length > 0) await stageTests(store, importId, tests);
      tests = [];
      readings = 0;
    };
    for (const rows of batch) {
      const { accepted, issues } = reconcileUnit(rows, before?.get(rows.unit) ?? null, models);
      await tell(repeats.pass(issues));
      others.push(accepted);
      for (const test of accepted.tests) {
        for (const fragment of byFile(test)) tests.push(fragment);
        readings += test.readings.length;
        if (readings >= readingsAtATime) await write();
      }
      units += 1;
      await breathe();
    }
    await write();
    await stageFacts(store, importId, {
      units: others.flatMap((rows) => rows.units),
      repairs: others.flatMap((rows) => rows.repairs),
      meterReadings: others.flatMap((rows) => rows.meterReadings),
      checks: others.flatMap((rows) => rows.checks),
    });
    onProgress?.(progressOf("checking", { units, totalUnits }));
    await breathe();
  }
  await tell(repeats.rest());
}

const without = (rows: UnitRows, refused: ReadonlySet<string>): UnitRows => {
  const counts = ({ file }: { readonly file: string }) => !refused.has(file);
  return {
    unit: rows.unit,
    units: rows.units.filter(counts),
    tests: rows.tests.filter(counts),
    repairs: rows.repairs.filter(counts),
    meterReadings: rows.meterReadings.filter(counts),
    checks: rows.checks.filter(counts),
  };
};

/** The test in parts, one for each file that its readings came from: the store keeps the file of each reading. */
function byFile(test: TestFact): readonly TestFact[] {
  if (test.readings.every((reading) => reading.file === undefined)) return [test];
  const files = [...new Set(test.readings.map((reading) => reading.file ?? test.file))];
  return files.map((file) => ({
    ...test,
    file,
    readings: test.readings.filter((reading) => (reading.file ?? test.file) === file),
  }));
}

/** Writes issues some hundred at a time. */
function issueWriter(store: Store, importId: string) {
  let waiting: RowIssue[] = [];
  const write = async (atLeast: number) => {
    while (waiting.length >= atLeast) {
      await addImportIssues(store, importId, waiting.slice(0, issuesAtATime));
      waiting = waiting.slice(issuesAtATime);
    }
  };
  return {
    tell: async (issues: readonly RowIssue[]) => {
      for (const issue of issues) waiting.push(issue);
      await write(issuesAtATime);
    },
    end: () => write(1),
  };
}
