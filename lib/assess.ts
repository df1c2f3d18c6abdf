import { altitudeWarning, meterQuestions } from "./assessment/doubtful-facts.ts";
import { type EngineState, stateOfEngine } from "./assessment/engine.ts";
import { lastReadingsInDoubt } from "./assessment/in-doubt.ts";
import type { FleetPools } from "./assessment/pools.ts";
import { rounded } from "./assessment/rounding.ts";
import { ruledOutQuestions } from "./assessment/ruled-out.ts";
import { stepQuestions } from "./assessment/step-questions.ts";
import { assessCylinder, type RepairWindows, repairWindows } from "./assessment/unit.ts";
import { usePoolFor } from "./assessment/use-pools.ts";
import { wholeUnitChance, wholeUnitReason } from "./assessment/whole-unit.ts";
import { standingWords, unitReason, unitWarnings } from "./assessment/words.ts";
import { addMonths, daysBetween } from "./calendar.ts";
import { worstBand } from "./condition/band.ts";
import type { DoubtfulTests } from "./condition/reweigh.ts";
import { type TestInterval, testIntervalOf } from "./condition/test-due.ts";
import { aheadGrid } from "./projection/crossing.ts";
import type { Telling } from "./projection/tell.ts";
import { cumulativeNow, forecastUse, noUse, ownUse } from "./projection/use.ts";
import type { UnitAssessment } from "./schema/assessment.ts";
import type { IsoDate } from "./schema/facts.ts";
import type { AssessmentSettings } from "./schema/settings.ts";
import type { FleetIndex, UnitHistory } from "./sealing/types.ts";

export interface AssessOptions {
  readonly asOf: IsoDate;
  readonly settings: AssessmentSettings;
  readonly pools: FleetPools;
  /** What is done with tests that are doubted; left out: they are weighed. */
  readonly doubtful?: DoubtfulTests;
}

/** A unit's assessment with what it was made from, for the report that its page shows. */
export interface AssessedUnit {
  readonly assessment: UnitAssessment;
  readonly unit: UnitHistory;
  readonly state: EngineState;
  readonly windows: RepairWindows;
  readonly telling: Telling;
  readonly settings: AssessmentSettings;
  /** The engine's wear meter now. */
  readonly xNow: number;
  /** Its model's, or else the fleet's; undefined: none. */
  readonly testInterval: TestInterval | undefined;
}

/**
 * One unit through all stages: sealing (on demand), condition, cause, projection, bands, repair windows. Deterministic:
 * the same facts, date, settings and pools give the same document.
 */
export function assessUnit(
  index: FleetIndex,
  unit: UnitHistory,
  { asOf, settings, pools, doubtful }: AssessOptions,
): AssessedUnit {
  const pool = usePoolFor(pools, unit.model, unit.meterUnit, unit);
  const use =
    unit.status === "in-service" ? forecastUse(ownUse(unit.meterPoints, asOf, pool.season), pool, asOf) : noUse;
  const cumulative = cumulativeNow(unit.meterPoints, use, asOf);
  const meterNow = rounded(cumulative - unit.offset, 1);
  const horizonDays = daysBetween(asOf, addMonths(asOf, Math.round(12 * settings.horizonYears)));
  const telling: Telling = { asOf, meterNow, use, horizonDays };
  // What is told of the next year, and bands of the lead time, must not hang on a horizon that ends before them.
  const leadDays = daysBetween(asOf, addMonths(asOf, settings.leadTimeMonths));
  const ahead = aheadGrid(use, Math.max(horizonDays, leadDays, 366));
  const xNow = cumulative + unit.engineOffset;

  // A plan whose day has passed with the unit still here ends no question.
  const disposal = unit.disposalDate !== null && unit.disposalDate > asOf ? unit.disposalDate : null;

  const history = index.seal(unit.engine);
  const state = stateOfEngine(history, pools, unit.meterUnit, xNow, ahead, asOf, doubtful);
  const cylinders = state.cylinders.map((c) => assessCylinder(state, c, settings, telling));
  const windows = repairWindows(state, telling, ahead, { togetherMonths: settings.togetherMonths, disposal });
  const lastTestDate = history.tests.reduce<IsoDate | null>(
    (last, t) => (last === null || t.date > last ? t.date : last),
    null,
  );
  const band = worstBand(cylinders.map((c) => c.band));
  const testInterval = testIntervalOf(unit.model, unit.meterUnit, settings);
  const inDoubt = lastReadingsInDoubt(state);
  const standing = standingWords(band, telling, unit.meterUnit);
  const asAWhole = wholeUnitChance(band, windows, { telling, settings, leadDays });
  const assessment: UnitAssessment = {
    unit: unit.unit,
    engineModel: unit.model.id,
    band,
    meter: { value: meterNow, unit: unit.meterUnit, perDay: rounded(use.perDay, 3) },
    lastTestDate,
    cylinders,
    repairs: { topEnd: windows.topEnd, bottomEnd: windows.bottomEnd },
    warnings: [
      ...unitWarnings({ unit, state, lastTestDate, xNow, telling, testInterval }),
      ...[altitudeWarning(history), standing].filter((words) => words !== null),
    ],
    engineSerial: history.serial,
    reason: [unitReason(cylinders, band, { unit: unit.unit, history }), wholeUnitReason(asAWhole, settings)]
      .filter((words) => words !== null)
      .join("; "),
    questions: [
      ...new Set([
        ...stepQuestions(state, pools),
        ...inDoubt.map(({ words }) => words),
        ...ruledOutQuestions(state),
        ...meterQuestions(unit, history),
      ]),
    ],
    inDoubt,
    bothTogether: windows.bothTogether,
    asAWhole,
    soldBefore: windows.soldBefore,
    pools: [...new Set(Object.values(state.wear).map((w) => w.pool.fingerprint))].toSorted(),
  };
  return { assessment, unit, state, windows, telling, settings, xNow, testInterval };
}
