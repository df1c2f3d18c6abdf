import { chunks } from "../../db/chunks.ts";
import { hasFacts } from "../../db/facts.ts";
import { stageFacts } from "../../db/staging-facts.ts";
import { stageTests } from "../../db/staging-tests.ts";
import type { Store } from "../../db/store.ts";
import { fewRepeats } from "../../lib/intake/few-repeats.ts";
import { withFirstDay } from "../../lib/intake/first-day.ts";
import { judgeUnit, type ModelsToJudge } from "../../lib/intake/judge-unit.ts";
import { nothingBefore, oddnessOf, oddTests } from "../../lib/intake/odd-tests.ts";
import { alikeUnits, withAlike } from "../../lib/intake/unit-names.ts";
import type { UnitRows } from "../../lib/intake/unit-rows.ts";
import { rowsOfWithdrawn } from "../../lib/intake/withdrawn-rows.ts";
import type { TestFact, UnitFact } from "../../lib/schema/facts.ts";
import type { RowIssue } from "../../lib/schema/intake.ts";
import { knownBefore, knownTests } from "./known-before.ts";
import { breather, type JobControl, progressOf } from "./progress.ts";
import type { ReadSources } from "./read-sources.ts";
import type { UnitSpool } from "./unit-spool.ts";

/** One transaction; other work of this process waits for it. */
const readingsAtATime = 2000;
/** What the store holds of so many units is in memory at a time: a small file may tell of units with a long history. */
const unitsAtATime = 50;

export interface StagingUnits {
  readonly store: Store;
  readonly importId: string;
  readonly models: ModelsToJudge;
  /** Units that the store knows. */
  readonly knownUnits: ReadonlySet<string>;
  readonly spool: UnitSpool;
  readonly read: Pick<ReadSources, "refused">;
  readonly tell: (issues: readonly RowIssue[]) => Promise<void>;
}

/**
 * What needs all rows of a unit, judged unit by unit; what is accepted is staged. Gives the rows of lists of units that
 * give a known unit another engine.
 */
export async function stageUnits(staging: StagingUnits, { onProgress, signal }: JobControl): Promise<UnitFact[]> {
  const { store, importId, models, knownUnits, spool, read, tell } = staging;
  const breathe = breather(signal);
  const repeats = fewRepeats();
  const isEmpty = !(await hasFacts(store));
  const totalUnits = spool.units().size;
  const alikeOf = alikeUnits(spool.units(), knownUnits);
  const changedEngines: UnitFact[] = [];
  let units = 0;
  for (const spooled of spool.batches()) {
    const batch = batchWriter(store, importId);
    for (const part of chunks(spooled, isEmpty ? spooled.length : unitsAtATime)) {
      const names = part.map((rows) => rows.unit);
      const before = isEmpty ? null : await knownBefore(store, names);
      const oddness = isEmpty ? null : await knownTests(store, names);
      for (const spooledRows of part) {
        const rows = read.refused.size === 0 ? spooledRows : without(spooledRows, read.refused);
        const known = before?.get(rows.unit) ?? null;
        const judged = judgeUnit(rows, known, models);
        const { accepted, withChanges } = judged;
        const beside = oddness?.get(rows.unit) ?? nothingBefore;
        const issues = withFirstDay(rows, judged, judged.issues, beside);
        await tell(repeats.pass(withAlike(rows, issues, alikeOf(rows.unit))));
        await tell(oddTests(oddnessOf(judged, beside, models.changed)));
        if (beside.withdrawn !== undefined) await tell(rowsOfWithdrawn(accepted, beside.withdrawn));
        await batch.add(accepted, withChanges);
        const [fact] = accepted.units;
        if (known !== null && fact?.engineModel != null && fact.engineModel !== known.engineModel) {
          changedEngines.push(fact);
        }
        units += 1;
        await breathe();
      }
    }
    await batch.end();
    onProgress?.(progressOf("checking", { units, totalUnits }));
    await breathe();
  }
  await tell(repeats.rest());
  return changedEngines;
}

/** Writes tests some thousand readings at a time, everything else of the batch at its end. */
function batchWriter(store: Store, importId: string) {
  let tests: TestFact[] = [];
  let readings = 0;
  const others: Pick<UnitRows, "units" | "repairs" | "meterReadings" | "checks" | "judgements">[] = [];
  const withChanges = new Set<object>();
  const write = async () => {
    if (tests.length > 0) await stageTests(store, importId, tests, { withChanges });
    tests = [];
    readings = 0;
  };
  return {
    add: async (accepted: UnitRows, its: ReadonlySet<object>) => {
      for (const row of its) withChanges.add(row);
      const { units, repairs, meterReadings, checks, judgements } = accepted;
      others.push({ units, repairs, meterReadings, checks, judgements });
      for (const test of accepted.tests) {
        for (const part of byFile(test)) tests.push(part);
        readings += test.readings.length;
        if (readings >= readingsAtATime) await write();
      }
    },
    end: async () => {
      await write();
      const facts = {
        units: others.flatMap((rows) => rows.units),
        repairs: others.flatMap((rows) => rows.repairs),
        meterReadings: others.flatMap((rows) => rows.meterReadings),
        checks: others.flatMap((rows) => rows.checks),
        judgements: others.flatMap((rows) => rows.judgements),
      };
      await stageFacts(store, importId, facts, { withChanges });
    },
  };
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
    judgements: rows.judgements.filter(counts),
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
