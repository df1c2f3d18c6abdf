import type { AssessedUnit } from "./assess.ts";
import { datesOnAxis } from "./assessment/axis.ts";
import { basisOf } from "./assessment/basis.ts";
import { checkLines, measureCharts, repairMarks, testLines } from "./assessment/charts.ts";
import type { EngineState } from "./assessment/engine.ts";
import { findingOf, howSureOf, placeOf } from "./assessment/finding.ts";
import { fromModelOf, fromModelWords } from "./assessment/from-model.ts";
import { laggingOf } from "./assessment/lagging.ts";
import { lifeAgeDays } from "./assessment/life-ages.ts";
import { paceOf } from "./assessment/pace.ts";
import { fromModelByMonth, pastLimitByMonth } from "./assessment/past-limit.ts";
import { isNoRepairDue, soldBeforeWords, togetherWords } from "./assessment/together.ts";
import { useCourse } from "./assessment/use-course.ts";
import { warningLines } from "./assessment/warning-lines.ts";
import { weakestPlace } from "./assessment/weakest.ts";
import { toldWidths, widthWords } from "./assessment/width-words.ts";
import { standingWords, unitTestDue } from "./assessment/words.ts";
import { addDays, daysBetween } from "./calendar.ts";
import { nextSteps, settlingSteps } from "./cause/next-steps.ts";
import { causeLabel } from "./cause/words.ts";
import { isDoubtful } from "./condition/reweigh.ts";
import { wearObservations } from "./projection/observations.ts";
import type { IsoDate } from "./schema/facts.ts";
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

/** A wet test of the last year has said what it can say. */
const wetTestDays = 365;

/** All that a unit's page shows, made once when the unit is assessed; pages only read it. */
export function reportUnit(assessed: AssessedUnit): UnitReport {
  const { assessment, unit, state, windows, telling, xNow, testInterval } = assessed;
  const { history, tests } = state.conditioned;
  const due = unitTestDue({ unit, state, lastTestDate: assessment.lastTestDate, xNow, telling, testInterval });
  const lead = weakestPlace(assessment)?.lead.cylinder ?? 1;
  const diagnosis = state.diagnoses[lead - 1];
  const used = tests.filter((t) => t.weights.some((w) => w > 0)).length;
  const standing = standingWords(assessment.band, telling, unit.meterUnit);
  const charts = measureCharts(assessed);
  const sisters = sistersOf(state);
  const widths = toldWidths(state);
  const fromModel = fromModelOf(windows, { sisters: sistersOf(state) });
  return {
    asOf: telling.asOf,
    assessment,
    basis: basisOf(assessed),
    fromModel,
    depot: unit.depot,
    unitClass: unit.class,
    status: unit.status,
    model: unit.model,
    finding: findingOf(assessment, telling.asOf, paceOf(assessment, charts)),
    next:
      diagnosis === undefined
        ? []
        : nextSteps(diagnosis, {
            model: unit.model,
            band: assessment.band,
            repeats: assessment.inDoubt,
            unexplained: state.conditioned.improvements.length > 0,
            wetTested: isWetTested(lead),
            table: state.table,
            stood: standing,
            first: laggingOf(assessment)?.step ?? null,
            soldBefore: isNoRepairDue(assessment) ? soldBeforeWords(assessment) : null,
          }),
    together: togetherWords(assessment, telling.asOf),
    howSure: [
      howSureOf(assessment, { usedTests: used, setAside: tests.length - used, sisters }),
      widths === null ? null : widthWords(widths),
      fromModelWords(fromModel, telling.asOf),
    ]
      .filter((words) => words !== null)
      .join(" "),
    place: placeOf(assessment),
    testOverdue: due.overdue,
    nextTestDue: soonerTest(due.dueDate),
    axisIsMeter: unit.offset === 0 && unit.engineOffset === 0,
    xNow,
    datesOnAxis: datesOnAxis(unit, history, telling, xNow),
    charts,
    earlyWarnings: warningLines(state),
    doubtfulTests: tests.filter(({ doubts }) => doubts.some(isDoubtful)).length,
    tests: testLines(assessed),
    repairs: repairMarks(assessed, (cause) => causeLabel(cause).toLowerCase()),
    checks: checkLines(assessed),
    settles: assessment.cylinders.flatMap(({ cylinder, band }) => {
      const of = state.diagnoses[cylinder - 1];
      const steps =
        of === undefined
          ? []
          : settlingSteps(of, {
              model: unit.model,
              band,
              wetTested: isWetTested(cylinder),
              table: state.table,
            });
      return steps.length === 0 ? [] : [{ cylinder, steps }];
    }),
    use: useCourse(unit, telling.use),
    pastLimit: pastLimitByMonth(assessed),
    pastLimitOfModel: fromModelByMonth(assessed),
    ageDays: lifeAgeDays(assessed),
  };

  /**
   * On watch or worse a unit is tested twice as often (common practice, no source), and before a limit may be met: a test
   * after the early date of a window comes too late to be of use. What is asked for early is asked for from today on; an
   * interval that has ended keeps its day. A last test in doubt is made again now.
   */
  function soonerTest(dueDate: IsoDate | null): IsoDate | null {
    if (dueDate !== null && dueDate <= telling.asOf) return dueDate;
    if (assessment.inDoubt.length > 0) return telling.asOf;
    if (assessment.band === null || assessment.band === "sound" || assessment.lastTestDate === null) return dueDate;
    const early = [windows.topEnd, windows.bottomEnd].flatMap(({ date }) => (date.p10 === null ? [] : [date.p10]));
    const half =
      dueDate === null
        ? []
        : [addDays(assessment.lastTestDate, Math.round(daysBetween(assessment.lastTestDate, dueDate) / 2))];
    const [first] = [...early, ...half].toSorted();
    return first === undefined ? dueDate : ([first, telling.asOf].toSorted().at(-1) ?? dueDate);
  }

  function isWetTested(cylinder: number): boolean {
    return tests.some(
      ({ test }) =>
        test.measure === "compression-wet" &&
        test.readings.some((r) => r.cylinder === cylinder) &&
        daysBetween(test.date, telling.asOf) <= wetTestDays,
    );
  }
}
