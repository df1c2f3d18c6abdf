import { type AssessedUnit, type AssessOptions, assessUnit } from "../assess.ts";
import { roundedReading } from "../assessment/rounding.ts";
import { daysBetween } from "../calendar.ts";
import { weighCauses } from "../cause/diagnose.ts";
import { worseSign } from "../condition/series.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import { wearObservations } from "../projection/observations.ts";
import { improvedSteps } from "../projection/project.ts";
import type { Crossing } from "../schema/assessment.ts";
import { type JudgedMeasure, judgedMeasures } from "../schema/words.ts";
import type { FleetIndex, SealedTest, UnitHistory } from "../sealing/types.ts";
import { believedCourse } from "./course.ts";
import { type Deciding, decidingPlace } from "./deciding.ts";
import { levelRange, nextTestOf } from "./next-test.ts";
import { crossingAt, sealedWith } from "./re-assess.ts";
import type { Explained, OpenStep, RepairSide, TestEffect, UnitExplanation, Wanted } from "./types.ts";

/** Tests that are left out one by one: the last so many of the deciding measure. */
const mostTestsLeftOut = 12;

/**
 * Why a unit's date: what of the rate its own tests say, what each of the last tests does to it (the unit assessed anew
 * without the test: leave-one-out), and what a test next month would do. All under the pools given, which may have seen the
 * tests that are left out.
 * @param wanted a class of repair or a cylinder to explain in the place of what decides; one of which nothing is told is passed over
 */
export function explainUnit(
  index: FleetIndex,
  unit: UnitHistory,
  options: AssessOptions,
  wanted: Wanted = {},
): UnitExplanation {
  const steps = explaining(index, unit, options, wanted);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

/** The same in steps of one assessment, so that whoever else waits for the processor gets a turn between them. */
export function* explaining(
  index: FleetIndex,
  unit: UnitHistory,
  options: AssessOptions,
  wanted: Wanted = {},
): Generator<undefined, UnitExplanation, undefined> {
  const assessed = assessUnit(index, unit, options);
  if (assessed.assessment.lastTestDate === null) return { state: "never-tested" };
  const usual = decidingPlace(assessed);
  const deciding = decidingPlace(assessed, wanted) ?? usual;
  const told = deciding === null ? null : toldOf(assessed, deciding);
  if (deciding === null || told === null) return undecided(assessed);

  const { conditioned, wear } = assessed.state;
  const { measure } = deciding.measure;
  const cylinder = deciding.cylinder.diagnosis.cylinder;
  const at = { cylinder, measure };
  const { pool, cylinders } = wear[measure];
  const ofMeasure = conditioned.tests.filter(({ test }) => test.measure === measure);
  const last = ofMeasure.slice(-mostTestsLeftOut).toReversed();
  const isInPool = wearObservations(conditioned, measure).tests.length > 0;
  const rated = worseSign[measure] * 1000;
  const { date, status } = told.crossing;
  const moved = date.p50 !== null ? "p50" : date.p10 !== null ? "p10" : null;
  const tests: TestEffect[] = [];
  for (const { test, weights } of moved === null ? [] : last) {
    yield;
    tests.push(effectOf(test, weights));
  }
  yield;
  return {
    state: "explained",
    asOf: options.asOf,
    side: deciding.side,
    window: deciding.window,
    classProbability: deciding.classProbability,
    cylinder,
    cylinders: cylinders.length,
    decides: usual?.side === deciding.side && usual.cylinder === deciding.cylinder,
    sides: repairSides.filter((side) => assessed.windows[side].date.p10 !== null),
    causes: causesOf(
      assessed,
      cylinders.some((one) => one.cylinder === wanted.cylinder) ? (wanted.cylinder as number) : cylinder,
    ),
    measure,
    meterUnit: unit.meterUnit,
    meterNow: assessed.telling.meterNow,
    told,
    levelRange: levelRange(assessed, at),
    usableTests: deciding.measure.wear.usableTests,
    use: assessed.telling.use,
    sisters: {
      engines: Math.max(0, pool.engines - (isInPool ? 1 : 0)),
      tests: pool.tests,
      ratePerThousand: rated * pool.rateMean,
      rateSdPerThousand: 1000 * pool.rateSd,
    },
    errors: { test: pool.testSd, reading: Math.hypot(pool.readingSd, pool.readingShare * told.level, rounding()) },
    ownShare: Math.min(1, Math.max(0, deciding.measure.wear.ownShare)),
    course: believedCourse(deciding.measure, conditioned, pool),
    openStep: openStepOf(conditioned, at),
    moved,
    tests,
    olderTests: ofMeasure.length - last.length,
    nextTest: moved !== null && status !== "crossed" ? nextTestOf(index, unit, options, at) : null,
  };

  /** Of the cylinder's last reading. */
  function rounding(): number {
    const readings = ofMeasure.flatMap(({ test }) => test.readings.filter((one) => one.cylinder === cylinder));
    return readings.at(-1)?.roundingSd ?? 0;
  }

  function effectOf(test: SealedTest, weights: readonly number[]): TestEffect {
    const { history } = conditioned;
    const others = history.tests.filter((one) => one !== test);
    const again = assessUnit(sealedWith(index, { ...history, tests: others }), unit, options);
    const without = crossingAt(again, at) ?? noCrossing;
    const i = test.readings.findIndex((reading) => reading.cylinder === cylinder);
    const reading = test.readings[i];
    const [now, then] = moved === null ? [null, null] : [date[moved], without.date[moved]];
    return {
      date: test.date,
      unit: test.unit,
      meter: test.meter,
      attempt: test.attempt,
      instrument: test.instrument,
      value: reading === undefined ? null : roundedReading(measure, reading.value),
      weight: weights[i] ?? 0,
      without,
      laterDays: now === null || then === null ? null : daysBetween(now, then),
    };
  }
}

const causesOf = ({ state, telling }: AssessedUnit, cylinder: number): Explained["causes"] => ({
  cylinder,
  ...weighCauses(state.conditioned, cylinder, { asOf: telling.asOf, table: state.table }),
});

/** Of several such steps of a cylinder the last one is open (lib/projection/project.ts). */
function openStepOf(conditioned: ConditionedEngine, at: { cylinder: number; measure: JudgedMeasure }): OpenStep | null {
  const step = improvedSteps(conditioned, at.measure).findLast(({ cylinders }) => cylinders.includes(at.cylinder));
  return step === undefined ? null : { date: step.date, from: step.from, to: step.to, believed: step.believed };
}

/** Why no place decides: more tests help only where one of the measures that were taken has a limit. */
function undecided({ state }: AssessedUnit): UnitExplanation {
  const taken = state.cylinders.flatMap(({ measures }) => measures.filter(({ wear }) => wear.usableTests > 0));
  if (taken.length === 0 || taken.some(({ limit }) => limit !== null)) return { state: "too-few-tests" };
  return { state: "no-limit", measures: judgedMeasures.filter((one) => taken.some(({ measure }) => measure === one)) };
}

const repairSides: readonly RepairSide[] = ["topEnd", "bottomEnd"];

const noCrossing: Crossing = {
  status: "too-few-tests",
  meter: { p10: null, p50: null, p90: null },
  date: { p10: null, p50: null, p90: null },
  probabilityWithinYear: null,
};

function toldOf({ assessment }: AssessedUnit, { cylinder, measure }: Deciding): Explained["told"] | null {
  const own = assessment.cylinders.find((c) => c.cylinder === cylinder.diagnosis.cylinder);
  const told = own?.measures.find((m) => m.measure === measure.measure);
  if (told === undefined || told.level === null || told.limit === null || told.crossing === null) return null;
  return { ...told, level: told.level, limit: told.limit, crossing: told.crossing };
}
