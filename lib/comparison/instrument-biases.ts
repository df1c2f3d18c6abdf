import { type FleetPools, familySpreadsFor, fitPools, poolKinds, wearPoolFor } from "../assessment/pools.ts";
import { daysBetween } from "../calendar.ts";
import { conditionEngine } from "../condition/condition.ts";
import { faultProbability } from "../condition/fault-probability.ts";
import { isConcerned } from "../condition/instrument-bias.ts";
import { fleetErrors } from "../condition/reading-errors.ts";
import { worseSign } from "../condition/series.ts";
import { repeatability } from "../repeatability.ts";
import type { InstrumentBias, SharedStep, TesterComparison, TesterCourse, TesterOffset } from "../schema/comparison.ts";
import type { IsoDate } from "../schema/facts.ts";
import { type JudgedMeasure, judgedMeasures } from "../schema/words.ts";
import type { FleetIndex } from "../sealing/types.ts";
import { studentTQuantile } from "../statistics/student-t.ts";
import { inOneGo } from "../steps.ts";
import { isNotWear, isTowardsWear, witnessesOf } from "./not-wear.ts";
import { comparingTested, testedUnitOf } from "./tester-comparison.ts";
import { testerCourses } from "./tester-courses.ts";

/** Of instruments so many read off, before any is looked at: judgement. */
const offShare = 0.05;
/**
 * An instrument shifts every engine alike. Where fewer stepped to its side, or the middle engine by less than twice what whole
 * tests repeat to, some engines of a fleet may as well have failed at about one time.
 */
const shiftedAlike = 0.9;
/** One that is in force stays with a little less, or it would come and go with single tests. */
const keptAlike = 0.8;
const keptProbability = 0.4;
const leastRepeatabilities = 2;
/** Less likely than not is no ground to doubt anybody's test. */
const leastProbability = 0.5;
/** A jump that lines on each side leave less of than this share was wear that they follow. */
const leastJump = 0.6;
/** One-sided, that the jump differs from nought. */
const surelyJumped = 0.995;
/** What is left of an offset when it is put right: less than twice what whole tests repeat to, or than this share of it. */
const leftOver = 0.25;

/** Whether something speaks against it that a step towards the worse is wear. */
export type IsNotWear = (step: SharedStep) => boolean;

/**
 * The instruments that read off, from the comparisons of testers: steps that many engines took together with an
 * instrument or at a depot, until others take them back; and instruments that always read high or low beside at least two
 * others. It is worse to doubt true wear than to miss an instrument that the comparison tells of anyway: so readings must
 * jump at the date, and a step towards the worse counts only where it is taken back or `notWear` says so. How sure each is:
 * Bayes' rule over its mean and standard error, which is taken to be no less than what whole tests of so many engines repeat
 * to. Deterministic; by measure, then as the comparisons list them.
 *
 * @param kept what is in force: it stays while eight in ten engines stepped and it is 0.4 likely, where another one takes
 * nine in ten and 0.5
 */
export function instrumentBiases(
  comparisons: readonly TesterComparison[],
  notWear: IsNotWear = () => false,
  kept: readonly InstrumentBias[] = [],
): InstrumentBias[] {
  return comparisons.flatMap(({ measure, steps = [], testers }) => {
    const names = new Set(steps.map(nameOfStep));
    const stepped = [...names].flatMap((name) =>
      ofSteps(
        steps.filter((step) => nameOfStep(step) === name),
        { notWear, isJump: jumpIn(kept) },
      ),
    );
    const standing = testers.flatMap((tester) => {
      const known = stepped.some(({ of, name, instruments }) =>
        of === "instrument" ? name === tester.instrument : (instruments?.includes(tester.instrument) ?? false),
      );
      return known ? [] : ofOffset(measure, tester);
    });
    return [...stepped, ...standing].filter(
      (bias) => bias.probability >= (kept.some((of) => isOfSame(bias, of)) ? keptProbability : leastProbability),
    );
  });
}

/** Steps of which `notWear` may be asked: those towards the worse that readings jump at. */
export const stepsToWitness = (
  comparisons: readonly TesterComparison[],
  kept: readonly InstrumentBias[] = [],
): readonly SharedStep[] =>
  comparisons.flatMap(({ steps = [] }) => steps.filter((step) => isTowardsWear(step) && jumpIn(kept)(step)));

const nameOfStep = ({ of, name }: SharedStep): string => `${of} ${name}`;

/** How far an instrument read off from one step to the next. */
interface Stretch {
  /** The step that it began with. */
  readonly step: SharedStep;
  readonly mean: number;
  readonly until: IsoDate | null;
}

/**
 * Goes through the steps of one instrument or depot by date, with the offset that they leave it at: where that is back near
 * nought it was put right, and may drift again; else what is left is another stretch.
 */
function ofSteps(
  steps: readonly SharedStep[],
  { notWear, isJump }: { readonly notWear: IsNotWear; readonly isJump: (step: SharedStep) => boolean },
): InstrumentBias[] {
  const found: InstrumentBias[] = [];
  let stretches: Stretch[] = [];
  const end = () => {
    found.push(...toldOf(stretches, notWear));
    stretches = [];
  };
  for (const step of steps.toSorted((a, b) => (a.date < b.date ? -1 : 1))) {
    const last = stretches.at(-1);
    const by = isJump(step) ? (step.jump?.middle ?? 0) : (step.middle ?? 0);
    if (last === undefined) {
      if (isJump(step)) stretches = [{ step, mean: by, until: null }];
      continue;
    }
    const left = last.mean + by;
    const isBack = Math.abs(left) < Math.max(leastStep(step.measure), leftOver * Math.abs(last.mean));
    // What the lines on both sides show to be wear puts nothing right.
    if (!isJump(step) && !(isBack && step.jump?.fitted === false)) continue;
    stretches = [...stretches.slice(0, -1), { ...last, until: step.date }];
    if (isBack) end();
    else stretches.push({ step, mean: left, until: null });
  }
  end();
  return found;
}

/**
 * Of the stretches between two times that it read right, those that are no wear: readings that are too good, or too bad
 * until a step takes back half or more, or that something else shows to be no wear. Two steps to the worse, one after the
 * other, look like wear whatever else is said.
 */
function toldOf(stretches: readonly Stretch[], notWear: IsNotWear): InstrumentBias[] {
  return stretches.flatMap(({ step, mean, until }, i) => {
    const isWorse = Math.sign(mean) === worseSign[step.measure];
    const next = stretches[i + 1];
    const takenBack = until !== null && (next === undefined || next.mean / mean <= mostLeft);
    const toWorse = stretches.slice(0, i + 2).filter((of) => isTowardsWear(of.step));
    const shown = !isWorse || takenBack || (toWorse.length === 1 && toWorse.every((of) => notWear(of.step)));
    return shown ? [biasOf(step, mean, until)] : [];
  });
}
/** Wear isn't taken back; so much may be left of a step of which most is. */
const mostLeft = 0.5;

const leastStep = (measure: JudgedMeasure): number => leastRepeatabilities * repeatabilityOf(measure);

/** Whether readings jump at a step, of one that began a bias in force by fewer engines alike. */
const jumpIn = (kept: readonly InstrumentBias[]) => (step: SharedStep) =>
  isJump(step, kept.some((of) => isOfSame({ ...step, from: step.date }, of)) ? keptAlike : shiftedAlike);

/** Of the same instrument or depot, begun at about the same time. */
const isOfSame = (
  a: Pick<InstrumentBias, "measure" | "of" | "name" | "from">,
  b: Pick<InstrumentBias, "measure" | "of" | "name" | "from">,
): boolean => a.measure === b.measure && a.of === b.of && a.name === b.name && isNearInTime(a, b);

const isNearInTime = (a: Pick<InstrumentBias, "from">, b: Pick<InstrumentBias, "from">): boolean =>
  a.from === null || b.from === null ? a.from === b.from : Math.abs(daysBetween(a.from, b.from)) <= near.days;

/** Whether the engines' readings jumped at the date, so many of them to one side, and did not only go on to wear. */
function isJump(step: SharedStep, leastAlike: number): boolean {
  const { measure, engines, jump, alike = 0, middle = 0 } = step;
  if (jump === undefined || alike < leastAlike) return false;
  if (!jump.fitted && isTowardsWear(step)) return false;
  const sign = Math.sign(middle);
  const by = sign * jump.mean;
  const sure = studentTQuantile(surelyJumped, Math.max(1, engines - 1)) * jump.standardError;
  return (
    Math.min(by, sign * jump.middle, sign * jump.raw) >= leastStep(measure) &&
    by >= leastJump * Math.abs(middle) &&
    by > sure
  );
}

function biasOf(step: SharedStep, mean: number, until: IsoDate | null): InstrumentBias {
  const { measure, of, name, date, engines, boreNotNoted, newInstruments, standardError = 0, jump } = step;
  // The jump hangs on no pool, which a step has bent where it was fitted across it.
  const error = jump?.fitted ? jump.standardError : standardError;
  return {
    measure,
    of,
    name,
    instruments: of === "depot" && newInstruments.length > 0 ? newInstruments : null,
    orificeMm: boreNotNoted ? null : "any",
    from: date,
    until,
    mean,
    engines,
    probability: probabilityOf(measure, { mean, standardError: error, engines }),
  };
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
  return (
    nameOf(a) === nameOf(b) &&
    isNearInTime(a, b) &&
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
  const found = inOneGo(biasesAmong(index, plain));
  if (found.length === 0) return plain;
  const pools = fitPools(index, asOf, found);
  return { ...pools, biases: settledBiases(inOneGo(biasesAmong(index, pools, found)), found) };
}

function* comparisonOf(measure: JudgedMeasure, courses: readonly TesterCourse[]): Generator<void, TesterComparison> {
  const byUnit = new Map<string, TesterCourse[]>();
  for (const course of courses) {
    if (course.measure !== measure) continue;
    const own = byUnit.get(course.unit);
    if (own === undefined) byUnit.set(course.unit, [course]);
    else own.push(course);
  }
  const ascending = [...byUnit].toSorted(([a], [b]) => (a < b ? -1 : 1));
  const units = ascending.map(([, of]) => testedUnitOf(measure, of));
  return (yield* comparingTested(measure, units)).comparison;
}

/** To look at every engine of a large fleet would take as long as to assess it, and an instrument that is off is off on many. */
const mostUnits = 2_500;

/** At most so many, evenly over the fleet as it is listed. */
function sampled<T>(units: readonly T[]): readonly T[] {
  const every = Math.ceil(units.length / mostUnits);
  return units.filter((_, i) => i % every === 0);
}

/**
 * The instruments that read off among the tests of all engines, or evenly chosen 2,500 of them. A generator, so that whoever
 * calls it can do other work in between: each step is an engine, or a part of the comparison. An engine whose tests cannot be
 * reckoned with is left out; the assessment of its unit says so.
 *
 * @param kept what is in force
 */
export function* biasesAmong(
  index: FleetIndex,
  pools: FleetPools,
  kept: readonly InstrumentBias[] = [],
): Generator<void, readonly InstrumentBias[]> {
  const courses: TesterCourse[] = [];
  for (const unit of sampled(index.units)) {
    yield;
    try {
      const errors = fleetErrors(familySpreadsFor(pools, unit.model, unit.meterUnit));
      const conditioned = conditionEngine(index.seal(unit.engine), errors, pools.biases);
      const wearOf = (measure: JudgedMeasure) => wearPoolFor(pools, unit.model, measure, unit.meterUnit);
      courses.push(...testerCourses(unit, conditioned, wearOf));
    } catch {
      // Left out.
    }
  }
  const comparisons: TesterComparison[] = [];
  for (const measure of judgedMeasures) comparisons.push(yield* comparisonOf(measure, courses));
  const kinds = poolKinds(index.units).map((kind) => kind.units.map(({ unit }) => unit));
  return instrumentBiases(comparisons, (step) => isNotWear(step, courses, witnessesOf(step, kinds)), kept);
}
