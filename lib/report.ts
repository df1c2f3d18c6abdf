import type { AssessedUnit } from "./assess.ts";
import { datesOnAxis } from "./assessment/axis.ts";
import { measureCharts, repairMarks, testLines } from "./assessment/charts.ts";
import type { EngineState } from "./assessment/engine.ts";
import { findingOf, howSureOf, placeOf } from "./assessment/finding.ts";
import { weakestPlace } from "./assessment/weakest.ts";
import { standingWords, unitTestDue } from "./assessment/words.ts";
import { addMonths, daysBetween } from "./calendar.ts";
import { nextSteps } from "./cause/next-steps.ts";
import { causeLabel } from "./cause/words.ts";
import { probabilityWithinDays } from "./projection/crossing.ts";
import { wearObservations } from "./projection/observations.ts";
import { toldProbability } from "./projection/tell.ts";
import type { UnitReport } from "./schema/report.ts";
import { judgedMeasures } from "./schema/words.ts";

/** Engines of the pool that the forecast leans on, beside this one; it is one of them only where its own tests are in it. */
function sistersOf({ conditioned, wear }: EngineState): number {
  const { leakDown, compression } = conditioned.history.model;
  const judged = { "leak-down": leakDown !== undefined, "compression-dry": compression !== undefined };
  const counts = judgedMeasures.map((measure) => {
    if (!judged[measure]) return 0;
    const isInPool = wearObservations(conditioned, measure).tests.length > 0;
    return wear[measure].pool.engines - (isInPool ? 1 : 0);
  });
  return Math.max(0, ...counts);
}

/** All that a unit's page shows, made once when the unit is assessed; pages only read it. */
export function reportUnit(assessed: AssessedUnit): UnitReport {
  const { assessment, unit, state, windows, telling, xNow } = assessed;
  const { history, tests } = state.conditioned;
  const due = unitTestDue({ unit, state, lastTestDate: assessment.lastTestDate, xNow, telling });
  const lead = weakestPlace(assessment)?.cylinders[0]?.cylinder ?? 1;
  const diagnosis = state.diagnoses[lead - 1];
  const used = tests.filter((t) => t.weights.some((w) => w > 0)).length;
  const standing = standingWords(assessment.band, telling, unit.meterUnit);
  return {
    asOf: telling.asOf,
    assessment,
    depot: unit.depot,
    unitClass: unit.class,
    status: unit.status,
    model: unit.model,
    finding: findingOf(assessment, telling.asOf),
    next: [
      ...(standing === null ? [] : [{ title: "Test again after a warm run", detail: `${standing}.`, caution: null }]),
      ...(diagnosis === undefined
        ? []
        : nextSteps(diagnosis, { model: unit.model, band: assessment.band, repeats: assessment.inDoubt })),
    ],
    howSure: howSureOf(assessment, {
      usedTests: used,
      setAside: tests.length - used,
      sisters: sistersOf(state),
    }),
    place: placeOf(assessment),
    testOverdue: due.overdue,
    nextTestDue: due.dueDate,
    axisIsMeter: unit.offset === 0 && unit.engineOffset === 0,
    xNow,
    datesOnAxis: datesOnAxis(unit, history, telling, xNow),
    charts: measureCharts(assessed),
    tests: testLines(assessed),
    repairs: repairMarks(assessed, (cause) => causeLabel(cause).toLowerCase()),
    pastLimit: pastLimitByMonth(),
  };

  function pastLimitByMonth(): UnitReport["pastLimit"] {
    const { topEndDistribution: top, bottomEndDistribution: bottom } = windows;
    if (top === null && bottom === null) return [];
    const months: { date: string; topEnd: number; bottomEnd: number }[] = [];
    for (let month = 0; ; month++) {
      const date = addMonths(telling.asOf, month);
      const days = daysBetween(telling.asOf, date);
      if (days > telling.horizonDays) return months;
      const within = (d: typeof top) => (d === null ? 0 : toldProbability(probabilityWithinDays(d, telling.use, days)));
      months.push({ date, topEnd: within(top), bottomEnd: within(bottom) });
    }
  }
}
