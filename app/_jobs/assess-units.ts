import { dropReports, keepReports } from "../../db/assessments.ts";
import { type EngineToKeep, replaceEngines } from "../../db/engines.ts";
import type { Store } from "../../db/store.ts";
import { assessUnit } from "../../lib/assess.ts";
import { engineOnItsOwn } from "../../lib/assessment/engine-on-its-own.ts";
import { stripDownsOf } from "../../lib/cause/strip-downs.ts";
import { changeFrame, compareStandings } from "../../lib/changes/compare.ts";
import { unitCourses } from "../../lib/comparison/unit-courses.ts";
import { reportUnit } from "../../lib/report.ts";
import type { Standing } from "../../lib/schema/changes.ts";
import type { UnitCourses } from "../../lib/schema/comparison.ts";
import type { UnitReport } from "../../lib/schema/report.ts";
import type { EngineHistory } from "../../lib/sealing/types.ts";
import { type AssessedUnits, type Assessing, eachUnit } from "./each-unit.ts";
import { guarded } from "./guarded.ts";
import type { JobControl } from "./progress.ts";

export interface Reassessment extends Omit<Assessing, "change"> {
  readonly because: Parameters<typeof keepReports>[2]["because"];
  readonly importId: string | null;
  readonly at: string;
  /** The newest in the history before the job began, where the job may have issued the units before; see `keepReports`. */
  readonly lastId?: number;
  /** Of the facts, read before anything of them. */
  readonly version: number;
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
  control: JobControl = {},
): Promise<AssessedUnits> {
  const { asOf, settings, because, importId, at, version, lastId } = reassessment;
  const frame = changeFrame(settings, asOf);
  const isNews = (was: Standing, now: Standing) => compareStandings(was, now, frame).told;
  const histories = new Map<string, EngineHistory>();
  const reports: UnitReport[] = [];
  const left = new Set<string>();
  const courses = new Map<string, UnitCourses>();
  const told = { because, importId, at, version, isNews, courses, ...(lastId === undefined ? {} : { lastId }) };
  const keep = async () => {
    if (reports.length > 0) await keepReports(store, reports.splice(0), told);
    courses.clear();
  };
  return eachUnit(
    store,
    units,
    reassessment,
    {
      make: (assessed) => {
        const { history } = assessed.state.conditioned;
        return { history, report: reportUnit(assessed), courses: unitCourses(assessed) };
      },
      take: async ({ history, report, courses: its }) => {
        histories.set(history.engine, history);
        reports.push(report);
        courses.set(report.assessment.unit, its);
        left.add(report.assessment.unit);
        if (reports.length >= reportsAtATime) await keep();
      },
      endPart: async ({ index, units: ofPart }, { failed, leaveOut, breathe }) => {
        await keep();
        const engines: EngineToKeep[] = [];
        for (const key of index.engineKeys) {
          const engine = guarded(`the engine ${key}`, () => {
            const history = histories.get(key) ?? index.seal(key);
            const stands = engineOnItsOwn(history, asOf);
            const report = stands === null ? null : reportUnit(assessUnit(index, stands, reassessment));
            const stripDowns = index.opened.has(key) ? stripDownsOf(history) : [];
            return { ...withFittings(history), report, stripDowns };
          });
          if (engine.ok) engines.push(engine.value);
          else if (!failed.has(key)) leaveOut(engine.error);
          await breathe();
        }
        histories.clear();
        await replaceEngines(store, { units: ofPart, engines });
        await dropReports(
          store,
          ofPart.filter((unit) => !left.has(unit)),
          { because, importId, at, version },
        );
      },
    },
    control,
  );
}

const withFittings = ({ engine, serial, model, meterUnit, fittings }: EngineHistory): EngineToKeep => ({
  engine,
  serial,
  engineModel: model.id,
  meterUnit,
  fittings,
});
