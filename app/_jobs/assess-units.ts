import { dropReports, keepReports } from "../../db/assessments.ts";
import { type EngineWithFittings, replaceEngines } from "../../db/engines.ts";
import type { Store } from "../../db/store.ts";
import { assessUnit } from "../../lib/assess.ts";
import type { FleetPools } from "../../lib/assessment/pools.ts";
import { reportUnit } from "../../lib/report.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import type { UnitReport } from "../../lib/schema/report.ts";
import type { AssessmentSettings } from "../../lib/schema/settings.ts";
import type { MeterUnit } from "../../lib/schema/words.ts";
import type { EngineHistory } from "../../lib/sealing/types.ts";
import { fleetParts } from "./fleet-parts.ts";
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

/** Reports are large: a transaction with more of them would hold up the pages. */
const reportsAtATime = 10;

/**
 * Assesses the units, and all that are connected with them over shared engines, from the facts that stand, and keeps
 * their reports, engines and fittings. A unit that nothing is known of any more, or whose engine model is not, loses
 * its report. Gives the units that it came to, also those without a report now.
 */
export async function assessUnits(
  store: Store,
  units: readonly string[],
  reassessment: Reassessment,
  { onProgress, signal }: JobControl = {},
): Promise<ReadonlySet<string>> {
  const { asOf, settings, pools, because, importId, at, version } = reassessment;
  const breathe = breather(signal);
  const keep = async (reports: UnitReport[]) => {
    if (reports.length > 0) await keepReports(store, reports.splice(0), { because, importId, at, version });
  };
  const done = new Set<string>();
  for await (const part of fleetParts(store, units, reassessment)) {
    const { index } = part;
    const histories = new Map<string, EngineHistory>();
    const reports: UnitReport[] = [];
    for (const unit of index.units) {
      const result = assessUnit(index, unit, { asOf, settings, pools });
      histories.set(unit.engine, result.state.conditioned.history);
      reports.push(reportUnit(result));
      if (reports.length >= reportsAtATime) await keep(reports);
      await breathe();
    }
    await keep(reports);
    const engines = index.engineKeys.map((key) => withFittings(histories.get(key) ?? index.seal(key)));
    await replaceEngines(store, { units: part.units, engines });
    const left = new Set(index.units.map((unit) => unit.unit));
    await dropReports(
      store,
      part.units.filter((unit) => !left.has(unit)),
      { version },
    );
    for (const unit of part.units) done.add(unit);
    onProgress?.(progressOf("assessing", { units: done.size, totalUnits: Math.max(done.size, units.length) }));
    await breathe();
  }
  return done;
}

const withFittings = ({ engine, serial, model, meterUnit, fittings }: EngineHistory): EngineWithFittings => ({
  engine,
  serial,
  engineModel: model.id,
  meterUnit,
  fittings,
});
