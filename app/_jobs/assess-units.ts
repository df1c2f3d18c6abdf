import { dropReports, keepReports } from "../../db/assessments.ts";
import { type EngineToKeep, replaceEngines } from "../../db/engines.ts";
import type { Store } from "../../db/store.ts";
import { assessUnit } from "../../lib/assess.ts";
import { engineOnItsOwn } from "../../lib/assessment/engine-on-its-own.ts";
import type { FleetPools } from "../../lib/assessment/pools.ts";
import { changeFrame, compareStandings } from "../../lib/changes/compare.ts";
import { unitCourses } from "../../lib/comparison/unit-courses.ts";
import { reportUnit } from "../../lib/report.ts";
import type { Standing } from "../../lib/schema/changes.ts";
import type { UnitCourses } from "../../lib/schema/comparison.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import type { UnitReport } from "../../lib/schema/report.ts";
import type { AssessmentSettings } from "../../lib/schema/settings.ts";
import type { MeterUnit } from "../../lib/schema/words.ts";
import type { EngineHistory } from "../../lib/sealing/types.ts";
import { fleetParts } from "./fleet-parts.ts";
import { guarded, type NotAssessed } from "./guarded.ts";
import { breather, type JobControl, progressOf } from "./progress.ts";

export interface Reassessment {
  readonly asOf: IsoDate;
  readonly settings: AssessmentSettings;
  readonly pools: FleetPools;
  readonly usualMeterUnits: ReadonlyMap<string, MeterUnit>;
  readonly because: Parameters<typeof keepReports>[2]["because"];
  readonly importId: string | null;
  readonly at: string;
  /** Of the facts, read before anything of them. */
  readonly version: number;
}

export interface AssessedUnits {
  /** The units that it came to, also those without a report now. */
  readonly done: ReadonlySet<string>;
  /** How many of these could be assessed, or need not be. */
  readonly units: number;
  readonly notAssessed: readonly NotAssessed[];
}

/** Reports are large: a transaction with more of them would hold up the pages. */
const reportsAtATime = 10;

/**
 * Assesses the units, and all that are connected with them over shared engines, from the facts that stand, and keeps
 * their reports, engines and fittings. A unit that nothing is known of any more, or whose engine model is not, loses
 * its report, and so does one that cannot be assessed: the others go on.
 */
export async function assessUnits(
  store: Store,
  units: readonly string[],
  reassessment: Reassessment,
  { onProgress, signal, onNotAssessed }: JobControl = {},
): Promise<AssessedUnits> {
  const { asOf, settings, pools, because, importId, at, version } = reassessment;
  const breathe = breather(signal);
  const frame = changeFrame(settings, asOf);
  const isNews = (was: Standing, now: Standing) => compareStandings(was, now, frame).told;
  const courses = new Map<string, UnitCourses>();
  const told = { because, importId, at, version, isNews, courses };
  const keep = async (reports: UnitReport[]) => {
    if (reports.length > 0) await keepReports(store, reports.splice(0), told);
    courses.clear();
  };
  const done = new Set<string>();
  const notAssessed: NotAssessed[] = [];
  let failed = 0;
  const leaveOut = (problem: NotAssessed) => {
    notAssessed.push(problem);
    onNotAssessed?.(problem);
  };
  const tellProgress = (count: number) =>
    onProgress?.(progressOf("assessing", { units: count, totalUnits: Math.max(count, units.length) }));
  if (units.length > 0) tellProgress(0);
  for await (const part of fleetParts(store, units, reassessment)) {
    const { index } = part;
    const histories = new Map<string, EngineHistory>();
    const reports: UnitReport[] = [];
    const left = new Set<string>();
    const unsealed = new Set<string>();
    for (const [i, unit] of index.units.entries()) {
      const assessed = guarded(`the unit ${unit.unit}`, () => {
        const result = assessUnit(index, unit, { asOf, settings, pools });
        const { history } = result.state.conditioned;
        return { history, report: reportUnit(result), courses: unitCourses(result) };
      });
      if (assessed.ok) {
        histories.set(unit.engine, assessed.value.history);
        reports.push(assessed.value.report);
        courses.set(unit.unit, assessed.value.courses);
        left.add(unit.unit);
      } else {
        failed += 1;
        unsealed.add(unit.engine);
        leaveOut(assessed.error);
      }
      if (reports.length >= reportsAtATime) await keep(reports);
      tellProgress(done.size + i + 1);
      await breathe();
    }
    await keep(reports);
    const engines: EngineToKeep[] = [];
    for (const key of index.engineKeys) {
      const engine = guarded(`the engine ${key}`, () => {
        const history = histories.get(key) ?? index.seal(key);
        const stands = engineOnItsOwn(history, asOf);
        const report = stands === null ? null : reportUnit(assessUnit(index, stands, { asOf, settings, pools }));
        return { ...withFittings(history), report };
      });
      if (engine.ok) engines.push(engine.value);
      else if (!unsealed.has(key)) leaveOut(engine.error);
      await breathe();
    }
    await replaceEngines(store, { units: part.units, engines });
    await dropReports(
      store,
      part.units.filter((unit) => !left.has(unit)),
      { because, importId, at, version },
    );
    for (const unit of part.units) done.add(unit);
    tellProgress(done.size);
    await breathe();
  }
  return { done, units: done.size - failed, notAssessed };
}

const withFittings = ({ engine, serial, model, meterUnit, fittings }: EngineHistory): EngineToKeep => ({
  engine,
  serial,
  engineModel: model.id,
  meterUnit,
  fittings,
});
