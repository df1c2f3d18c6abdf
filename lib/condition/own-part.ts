import { type JudgedMeasure, judgedMeasures, type Place } from "../schema/words.ts";
import type { SealedReading, SealedTest } from "../sealing/types.ts";
import { weightedMedian } from "../statistics/quantile.ts";
import type { FamilySpread, FamilySpreads } from "./family.ts";
import { type MeasureSeries, measureSeries, worseSign } from "./series.ts";
import type { ConditionedEngine, Doubt } from "./types.ts";

/** One reading of a cylinder beside what its family let expect, worse is positive. */
export interface OwnPart {
  readonly measure: JudgedMeasure;
  readonly test: SealedTest;
  /** Reading less expectation: points of leakage, or kPa. */
  readonly amount: number;
  /** Standard deviation of `amount` for a cylinder that is still of the family. */
  readonly sd: number;
  /** What the reading was expected to be, in the unit of the measure. */
  readonly expected: number;
  readonly heardAt: readonly Place[];
  /** With each physical neighbour in the test, both held against the other siblings alone, in standard deviations. */
  readonly pairs: readonly { readonly own: number; readonly neighbour: number }[];
}

/** What watches one cylinder: it is shown each own part and says whether the cylinder is still of its family. */
export interface Watch {
  /** A new life began: all that was seen before is of other parts. */
  readonly renew: () => void;
  /** true: the reading belongs to the family and may teach its course. */
  readonly see: (part: OwnPart) => boolean;
}

/** As the series counts lives, and improvements that nobody explained: each begins anew, in both measures. */
interface Begun {
  readonly life: number;
  readonly improvements: number;
}

/** A level at `x` and its rate, worse is higher, with their covariance. */
interface Line {
  x: number;
  level: number;
  rate: number;
  levelVariance: number;
  covariance: number;
  rateVariance: number;
}

/** A cylinder's course beside its siblings: level and rate apart from them. */
interface Course extends Line, Begun {}

/** One measure's courses while the tests are gone through. */
interface Run {
  readonly measure: JudgedMeasure;
  readonly series: MeasureSeries;
  readonly spread: FamilySpread;
  /** An engine of one cylinder is held against its own predicted course. */
  readonly alone: boolean;
  /** Pairs of cylinders that share a gasket between them. */
  readonly neighbours: readonly (readonly [number, number])[];
  readonly courses: (Course | undefined)[];
  /** Place in `series.tests`. */
  next: number;
  /** The course of what the siblings have in common, from tests of several that are relied on; null: no such test yet. */
  common: Line | null;
}

interface Looked {
  readonly reading: SealedReading;
  readonly badness: number;
  /** The test is relied on for this cylinder, not only comparable with its siblings. */
  readonly isReliedOn: boolean;
  /** Variance of the reading's own error. */
  readonly error: number;
  readonly course: Course;
  readonly isFirst: boolean;
}

/** A reading that lies further off than this teaches the course no more than one that lies so far off. */
const mostTaught = 2.5;
/** From this weight on a reading is looked at; doubts of the whole test leave the cylinders comparable. */
const leastWeight = 0.5;

/**
 * Goes through an engine's tests in order and shows each cylinder's watch its own part: the reading less what the
 * siblings' readings of the same test and the cylinder's course so far let expect. The course (level and rate apart from
 * the siblings) begins with the family's spread at each life and is learned by a Kalman filter, so that the uncertainty of
 * a baseline of few tests, and wear that differs between cylinders as usual, stand in the standard deviation. What all
 * cylinders of a test share falls out. A cylinder without siblings in the test is held against the course that they have in
 * common, carried on to the test (level and rate by the same filter, begun with the rate usual of the kind), and the error
 * that tests have in common is added.
 */
export function watchOwnParts(conditioned: ConditionedEngine, spreads: FamilySpreads, watches: readonly Watch[]): void {
  const { history } = conditioned;
  const runs = judgedMeasures.map((measure): Run => {
    const series = measureSeries(history, measure);
    const courses = series.cylinders.map(() => undefined);
    return {
      measure,
      series,
      spread: spreads[measure],
      alone: courses.length === 1,
      neighbours: history.model.neighbours ?? [],
      courses,
      next: 0,
      common: null,
    };
  });
  // A watch holds both measures: a measure's first test begins a course of that measure, not the cylinder anew.
  const begun: (Begun | undefined)[] = [];
  const departed = new Set<number>();
  for (const [t, test] of history.tests.entries()) {
    const run = runs.find(({ measure }) => measure === test.measure);
    if (run === undefined) continue;
    const looked = lookAt(conditioned, run, t);
    for (const { reading, course } of looked) {
      const before = begun[reading.cylinder - 1];
      if (before !== undefined && !isSameLife(before, course)) {
        watches[reading.cylinder - 1]?.renew();
        departed.delete(reading.cylinder);
      }
      begun[reading.cylinder - 1] = course;
    }
    showTo(watches, run, test, looked, departed);
    run.next += 1;
  }
}

/** The readings of a test that can be held against the family, each with its course carried on to the test. */
function lookAt(conditioned: ConditionedEngine, run: Run, t: number): Looked[] {
  const { measure, series, spread, common } = run;
  const sign = worseSign[measure];
  const { test, weights } = conditioned.tests[t] as ConditionedEngine["tests"][number];
  if (common !== null) carryOn(common, test.x, spread);
  return test.readings.flatMap((reading, r) => {
    const { cylinder, value, referralSd } = reading;
    if (!isComparable(conditioned, t, cylinder, weights[r] as number)) return [];
    const place = series.places[run.next]?.[r] as number;
    const life = series.cylinders[cylinder - 1]?.life[place] as number;
    const improvements = improvementsUntil(conditioned, cylinder, test.x);
    const before = run.courses[cylinder - 1];
    const isFirst = before === undefined || !isSameLife(before, { life, improvements });
    const course = isFirst ? newCourse(run, { life, improvements, x: test.x }) : before;
    if (!isFirst) carryOn(course, test.x, spread);
    run.courses[cylinder - 1] = course;
    const badness = sign * value;
    const level = Math.max(0, sign * (common === null ? badness : course.level + common.level));
    // An altitude that nobody recorded moves all cylinders by the same share: only what stands apart is less sure.
    const shareOff = value > 0 ? referralSd / value : 0;
    const referral = measure === "leak-down" ? referralSd : shareOff * course.level;
    const error = spread.ownSd(level, test.instrument) ** 2 + referral ** 2;
    const isReliedOn = (weights[r] as number) >= leastWeight;
    return [{ reading, badness, isReliedOn, error, course, isFirst }];
  });
}

const isSameLife = (a: Begun, b: Begun): boolean => a.life === b.life && a.improvements === b.improvements;

/** @param departed cylinders that had left the family before the test; those that leave it at this test are added */
function showTo(
  watches: readonly Watch[],
  run: Run,
  test: SealedTest,
  looked: readonly Looked[],
  departed: Set<number>,
): void {
  const { measure } = run;
  // What a sick cylinder reads says nothing of the test. Where all that are left have departed, they are all there is.
  const isSound = looked.map(({ reading }) => !departed.has(reading.cylinder));
  const rest = looked.map(({ badness, course }) => badness - course.level);
  const precision = looked.map(({ error, course }) => 1 / (error + course.levelVariance));
  const sharedOf = ({ value, referralSd }: SealedReading) => run.spread.sharedSd(value) ** 2 + referralSd ** 2;
  const without = (...left: readonly number[]) => {
    const others: number[] = [];
    const weights: number[] = [];
    const soundOnly = isSound.some((is, i) => is && !left.includes(i));
    for (let i = 0; i < rest.length; i++) {
      if (left.includes(i) || (soundOnly && !isSound[i])) continue;
      others.push(rest[i] as number);
      weights.push(precision[i] as number);
    }
    return middleOf(others, weights);
  };
  // All are held against the courses as they were before the test.
  const shown = looked.map((one, i): Shown | null => {
    const { reading } = one;
    const shared = sharedOf(reading);
    const alone = run.alone ? { value: 0, variance: shared } : heldTo(run.common, shared);
    const reference = without(i) ?? alone;
    if (reference === null) return null;
    const { amount, variance } = heldAgainst(one, reference);
    const pairs = run.neighbours.flatMap(([a, b]) => {
      const other = a === reading.cylinder ? b : b === reading.cylinder ? a : null;
      const j = looked.findIndex((l) => l.reading.cylinder === other);
      // That a neighbour departed has counted once, at the test at which it did.
      const others = j < 0 || !isSound[j] ? null : without(i, j);
      if (others === null) return [];
      const own = heldAgainst(one, others);
      const neighbour = heldAgainst(looked[j] as Looked, others);
      return [
        { own: own.amount / Math.sqrt(own.variance), neighbour: neighbour.amount / Math.sqrt(neighbour.variance) },
      ];
    });
    const expected = worseSign[measure] * (one.badness - amount);
    const part = { measure, test, amount, sd: Math.sqrt(variance), expected, heardAt: reading.heardAt, pairs };
    return { part, variance };
  });
  for (const [i, of] of shown.entries()) {
    const { course, isFirst, reading } = looked[i] as Looked;
    if (of === null) continue;
    // The first reading of an engine without siblings has nothing to be held against.
    const isKnown = !(run.alone && isFirst);
    const belongs = !isKnown || (watches[reading.cylinder - 1]?.see(of.part) ?? true);
    if (belongs) departed.delete(reading.cylinder);
    else departed.add(reading.cylinder);
    if (belongs) learn(course, of.part.amount, of.variance, isKnown ? mostTaught : Number.POSITIVE_INFINITY);
  }
  const middle = without();
  if (looked.length < 2 || middle === null || !looked.some(({ isReliedOn }) => isReliedOn)) return;
  const shared = looked.reduce((sum, { reading }) => sum + sharedOf(reading), 0) / looked.length;
  // Where most began anew, so did what they have in common: after an overhaul it is no wear from what was before.
  const isAnew = 2 * looked.filter(({ isFirst }) => isFirst).length > looked.length;
  run.common = learnCommon(isAnew ? null : run.common, run.spread, test.x, {
    value: middle.value,
    variance: middle.variance + shared,
  });
}

interface Shown {
  readonly part: OwnPart;
  readonly variance: number;
}

const heldAgainst = (
  { badness, error, course }: Looked,
  to: { readonly value: number; readonly variance: number },
) => ({
  amount: badness - course.level - to.value,
  variance: error + course.levelVariance + to.variance,
});

const isOfAll: ReadonlySet<Doubt["code"]> = new Set(["all-cylinders-off", "last-of-few", "instrument-off"]);

/** Relied on, or doubted only because all cylinders lie off together: against each other they can still be held. */
function isComparable({ tests }: ConditionedEngine, t: number, cylinder: number, weight: number): boolean {
  if (weight >= leastWeight || weight <= 0) return weight > 0;
  const its = tests[t]?.doubts.filter((d) => d.cylinder === null || d.cylinder === cylinder) ?? [];
  return its.every(({ code, weight: left }) => isOfAll.has(code) || left === 1);
}

/** By either measure: what was repaired without a word shows more in one than in the other. */
const improvementsUntil = ({ improvements }: ConditionedEngine, cylinder: number, x: number): number =>
  improvements.filter((step) => step.cylinders.includes(cylinder) && step.afterX <= x).length;

const newCourse = ({ alone, spread }: Run, from: Begun & Pick<Course, "x">): Course => ({
  ...from,
  level: 0,
  rate: alone ? spread.rateMean : 0,
  levelVariance: alone ? 1e12 : spread.cylinderLevelSd ** 2,
  covariance: 0,
  rateVariance: (alone ? spread.rateSd : spread.cylinderRateSd) ** 2,
});

/** The common course after one more test; it begins with the rate that is usual of the kind. */
function learnCommon(
  common: Line | null,
  { rateMean, rateSd }: FamilySpread,
  x: number,
  seen: { readonly value: number; readonly variance: number },
): Line {
  if (common === null) {
    return {
      x,
      level: seen.value,
      rate: rateMean,
      levelVariance: seen.variance,
      covariance: 0,
      rateVariance: rateSd ** 2,
    };
  }
  learn(common, seen.value - common.level, common.levelVariance + seen.variance, mostTaught);
  return common;
}

function carryOn(course: Line, x: number, { wanderVariance }: FamilySpread): void {
  const by = Math.max(0, x - course.x);
  course.x = x;
  course.level += by * course.rate;
  course.levelVariance += 2 * by * course.covariance + by ** 2 * course.rateVariance + by * wanderVariance;
  course.covariance += by * course.rateVariance;
}

/** The Kalman filter's step; what lies very far off counts as if it lay at the bound. */
function learn(course: Line, amount: number, variance: number, most: number): void {
  const bound = most * Math.sqrt(variance);
  const taught = Math.max(-bound, Math.min(bound, amount));
  const gain = course.levelVariance / variance;
  const rateGain = course.covariance / variance;
  course.level += gain * taught;
  course.rate += rateGain * taught;
  course.rateVariance -= rateGain * course.covariance;
  course.covariance -= gain * course.covariance;
  course.levelVariance -= gain * course.levelVariance;
}

/** Of what the siblings' readings say of the test: the middle one, by precision; of two the mean. null: no sibling. */
function middleOf(values: readonly number[], precision: readonly number[]) {
  const n = values.length;
  if (n === 0) return null;
  const sum = precision.reduce((total, p) => total + p, 0);
  // Of normal errors a median varies more than a mean: by 1.35 of three, by up to 1.57 of many.
  if (n > 2) return { value: weightedMedian(values, precision), variance: (n === 3 ? 1.35 : 1.5) / sum };
  return { value: values.reduce((total, v, i) => total + v * (precision[i] as number), 0) / sum, variance: 1 / sum };
}

/** No sibling was measured with it: what they should have in common now, with its doubt and the test's common error. */
const heldTo = (common: Line | null, shared: number) =>
  common === null ? null : { value: common.level, variance: common.levelVariance + shared };
