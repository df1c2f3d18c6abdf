import { type FleetPools, familySpreadsFor, fitPools, wearPoolFor } from "../assessment/pools.ts";
import { daysBetween } from "../calendar.ts";
import { conditionEngine } from "../condition/condition.ts";
import { faultProbability } from "../condition/fault-probability.ts";
import { isConcerned } from "../condition/instrument-bias.ts";
import { fleetErrors } from "../condition/reading-errors.ts";
import { repeatability } from "../repeatability.ts";
import type { InstrumentBias, SharedStep, TesterComparison, TesterCourse, TesterOffset } from "../schema/comparison.ts";
import type { IsoDate } from "../schema/facts.ts";
import { type JudgedMeasure, judgedMeasures } from "../schema/words.ts";
import type { FleetIndex } from "../sealing/types.ts";
import { studentTQuantile } from "../statistics/student-t.ts";
import { compareTested, testedUnitOf } from "./tester-comparison.ts";
import { testerCourses } from "./tester-courses.ts";

/** Of instruments so many read off, before any is looked at: judgement. */
const offShare = 0.05;
/**
 * An instrument shifts every engine alike. Where fewer stepped to its side, or the middle engine by less than twice what whole
 * tests repeat to, some engines of a fleet may as well have failed at about one time.
 */
const shiftedAlike = 0.9;
const leastRepeatabilities = 2;
/** Less likely than not is no ground to doubt anybody's test. */
const leastProbability = 0.5;
/** A later step that takes back at least this share of one is its end. */
const takenBack = 0.5;

/**
 * The instruments that read off, from the comparisons of testers: steps that many engines took together with an
 * instrument or at a depot, until a step takes them back; and instruments that always read high or low beside at least two
 * others. How sure each is: Bayes' rule over its mean and standard error, which is taken to be no less than what whole tests
 * of so many engines repeat to. Deterministic; by measure, then as the comparisons list them.
 */
export function instrumentBiases(comparisons: readonly TesterComparison[]): InstrumentBias[] {
  return comparisons.flatMap(({ measure, steps = [], testers }) => {
    const stepped = steps.flatMap((step) => (isEndOf(step, steps) ? [] : ofStep(step, steps)));
    const standing = testers.flatMap((tester) => {
      const known = stepped.some(({ of, name, instruments }) =>
        of === "instrument" ? name === tester.instrument : (instruments?.includes(tester.instrument) ?? false),
      );
      return known ? [] : ofOffset(measure, tester);
    });
    return [...stepped, ...standing].filter(({ probability }) => probability >= leastProbability);
  });
}

const isSame = (a: SharedStep, b: SharedStep) => a.of === b.of && a.name === b.name && a.measure === b.measure;

const takesBack = (later: SharedStep, step: SharedStep): boolean =>
  isSame(later, step) &&
  later.date > step.date &&
  Math.sign(later.mean) !== Math.sign(step.mean) &&
  Math.abs(later.mean) >= takenBack * Math.abs(step.mean);

/** What takes an earlier step back puts the instrument right, and is no fault of its own. */
const isEndOf = (step: SharedStep, steps: readonly SharedStep[]): boolean =>
  steps.some((earlier) => takesBack(step, earlier) && endOf(earlier, steps) === step.date);

const endOf = (step: SharedStep, steps: readonly SharedStep[]): string | null =>
  steps
    .filter((later) => takesBack(later, step))
    .map(({ date }) => date)
    .toSorted()[0] ?? null;

function ofStep(step: SharedStep, steps: readonly SharedStep[]): InstrumentBias[] {
  const { measure, of, name, date, low, high, engines, boreNotNoted, newInstruments, alike = 0, middle = 0 } = step;
  const isOfAll = alike >= shiftedAlike && Math.abs(middle) >= leastRepeatabilities * repeatabilityOf(measure);
  if (!isOfAll) return [];
  const standardError = (high - low) / 2 / studentTQuantile(0.975, Math.max(1, engines - 1));
  return [
    {
      measure,
      of,
      name,
      instruments: of === "depot" && newInstruments.length > 0 ? newInstruments : null,
      orificeMm: boreNotNoted ? null : "any",
      from: date,
      until: endOf(step, steps),
      mean: middle,
      engines,
      probability: probabilityOf(measure, { mean: middle, standardError, engines }),
    },
  ];
}

function ofOffset(measure: JudgedMeasure, tester: TesterOffset): InstrumentBias[] {
  const { instrument, orificeMm, against, offset, verdict, shared } = tester;
  // Of two that only each other speaks of, neither can be told to be the one that is off.
  if (offset === null || (verdict !== "high" && verdict !== "low") || against.length < 2) return [];
  const { mean, standardError } = offset;
  return [
    {
      measure,
      of: "instrument",
      name: instrument,
      instruments: null,
      orificeMm: measure === "leak-down" ? orificeMm : "any",
      from: null,
      until: null,
      mean,
      engines: shared,
      probability: probabilityOf(measure, { mean, standardError, engines: shared }),
    },
  ];
}

/** Compression is compared in per cent of itself. */
const levelOf = (measure: JudgedMeasure): number => (measure === "leak-down" ? 0 : 100);
const repeatabilityOf = (measure: JudgedMeasure): number => repeatability(measure, levelOf(measure)).shared;

function probabilityOf(
  measure: JudgedMeasure,
  told: { readonly mean: number; readonly standardError: number; readonly engines: number },
): number {
  const sd = Math.max(told.standardError, repeatabilityOf(measure) / Math.sqrt(told.engines));
  const probability = faultProbability({ measure, size: told.mean, sd, level: levelOf(measure) }, offShare);
  return Math.round(1000 * probability) / 1000;
}

/** What is taken for the same finding: mean and probability this near, the first test no further off in time. */
const near = { mean: 0.2, probability: 0.1, days: 92 };

/**
 * Of each finding what is kept already, where it says the same but for a little: assessments must not move with every test
 * that somebody else makes.
 */
export function settledBiases(
  found: readonly InstrumentBias[],
  kept: readonly InstrumentBias[],
): readonly InstrumentBias[] {
  return found.map((bias) => kept.find((before) => saysTheSame(bias, before)) ?? bias);
}

function saysTheSame(a: InstrumentBias, b: InstrumentBias): boolean {
  const nameOf = ({ measure, of, name, orificeMm, instruments, until }: InstrumentBias) =>
    JSON.stringify([measure, of, name, orificeMm, instruments, until]);
  const isNearInTime =
    a.from === null || b.from === null ? a.from === b.from : Math.abs(daysBetween(a.from, b.from)) <= near.days;
  return (
    nameOf(a) === nameOf(b) &&
    isNearInTime &&
    Math.abs(a.mean - b.mean) <= near.mean * Math.abs(b.mean) &&
    Math.abs(a.probability - b.probability) <= near.probability
  );
}

/** Whether a test of the course was made with the instrument while it read off. */
export const concernsCourse = (bias: InstrumentBias, { measure, tests }: TesterCourse): boolean =>
  tests.some((test) => isConcerned({ ...test, measure }, bias));

/**
 * Every pool that the fleet's units need, with the instruments that read off among the tests of all of them: what an
 * assessment that keeps nothing takes in place of what the store keeps. Where there are any, the pools are fitted again
 * with their tests doubted, and how far they read off is told anew by the wear that is then expected.
 */
export function fitFleet(index: FleetIndex, asOf: IsoDate): FleetPools {
  const plain = fitPools(index, asOf);
  const found = biasesAmong(index, plain);
  if (found.length === 0) return plain;
  const pools = fitPools(index, asOf, found);
  return { ...pools, biases: settledBiases(biasesAmong(index, pools), found) };
}

function comparisonOf(measure: JudgedMeasure, courses: readonly TesterCourse[]): TesterComparison {
  const byUnit = new Map<string, TesterCourse[]>();
  for (const course of courses) {
    if (course.measure === measure) byUnit.set(course.unit, [...(byUnit.get(course.unit) ?? []), course]);
  }
  const ascending = [...byUnit].toSorted(([a], [b]) => (a < b ? -1 : 1));
  return compareTested(
    measure,
    ascending.map(([, of]) => testedUnitOf(measure, of)),
  ).comparison;
}

/** An engine whose tests cannot be reckoned with is left out; the assessment of its unit says so. */
function biasesAmong(index: FleetIndex, pools: FleetPools): readonly InstrumentBias[] {
  const courses = index.units.flatMap((unit) => {
    try {
      const errors = fleetErrors(familySpreadsFor(pools, unit.model, unit.meterUnit));
      const conditioned = conditionEngine(index.seal(unit.engine), errors, pools.biases);
      return testerCourses(unit, conditioned, (measure) => wearPoolFor(pools, unit.model, measure, unit.meterUnit));
    } catch {
      return [];
    }
  });
  return instrumentBiases(judgedMeasures.map((measure) => comparisonOf(measure, courses)));
}
