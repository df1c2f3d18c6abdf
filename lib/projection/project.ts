import { worseSign } from "../condition/series.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import { clockAt, clockSpeed } from "./clock.ts";
import { levelQuantilesAhead } from "./fan.ts";
import { type Before, lifeStarts } from "./life-start.ts";
import { type UnexplainedStep, type WearObservations, wearObservations } from "./observations.ts";
import { farOffShare } from "./priors.ts";
import { type WearScale, wearScaleOf } from "./scale.ts";
import type { TwoParts } from "./two-parts.ts";
import type { CylinderWear, EngineWear, WearBranch, WearPool } from "./types.ts";
import { type CylinderFit, type EngineFit, fitEngineWear, partsUnder } from "./wear-model.ts";

/** Tests that a range must rest on; with fewer the pool would do all the talking. */
export const fewestTests = 3;

/** How far an improvement that nobody explained is believed, by the number of usable tests since. */
const believedAfter = [0.5, 0.5, 0.75, 0.9];
/** The same while all tests since were made with another tester of which nobody tells the restrictor: it explains them all. */
const believedByBlankBore = 0.45;

/** A step with the probability that it is true, and not the fault of the tests since. */
interface BelievedStep extends UnexplainedStep {
  readonly believed: number;
  /** Levels before and after the step, as measured. */
  readonly from: number;
  readonly to: number;
}

/** The improvements of one measure that nobody explained, as steps of the wear. */
export function improvedSteps(conditioned: ConditionedEngine, measure: JudgedMeasure): BelievedStep[] {
  return conditioned.improvements
    .filter((improvement) => improvement.measure === measure)
    .map(({ cylinders, afterX, date, from, to, testsSince, blankBoreOf }) => ({
      cylinders,
      afterX,
      date,
      from,
      to,
      believed:
        blankBoreOf == null
          ? (believedAfter[Math.min(testsSince, believedAfter.length - 1)] ?? 0.5)
          : believedByBlankBore,
    }));
}

/** An engine by one measure under its pool, its steps left as they were read. */
export interface EngineRead {
  readonly pool: WearPool;
  readonly scale: WearScale;
  readonly steps: readonly BelievedStep[];
  readonly observations: WearObservations;
  /** Parted once they are asked for; both measures may ask for them. */
  readonly parts: () => TwoParts;
}

/** Reads an engine by the measure of a pool. */
export function readEngine(conditioned: ConditionedEngine, pool: WearPool): EngineRead {
  const scale = wearScaleOf(conditioned.history.model, pool.measure);
  const observations = wearObservations(conditioned, pool.measure);
  let parts: TwoParts | null = null;
  return {
    pool,
    scale,
    steps: improvedSteps(conditioned, pool.measure),
    observations,
    parts: () => {
      parts ??= partsUnder(observations, pool, scale);
      return parts;
    },
  };
}

const otherParts = (other: EngineRead | null): TwoParts | null =>
  other === null || other.steps.length > 0 || other.observations.tests.length === 0 ? null : other.parts();

interface Reading {
  readonly fit: EngineFit;
  readonly observations: WearObservations;
}

/**
 * Level and rate of every cylinder of an engine at wear meter `xNow`, for one measure, under its pool.
 *
 * Where an improvement has no repair on file, both pasts stay open for the cylinders concerned: that the readings since
 * mislead (the old level and rate go on), and that the cylinder was renewed. The second weighs more with every test that
 * bears it out. Of several such steps of a cylinder the last one is open, those before it are taken as they read.
 *
 * @param own the engine by that measure
 * @param other the engine by the other measure, where its readings are to say something of this one too; where a step of
 *   either is open they do not, for they are about other courses of events
 */
export function projectEngine(
  conditioned: ConditionedEngine,
  { pool, scale, steps, observations: plain, parts }: EngineRead,
  xNow: number,
  other: EngineRead | null = null,
): EngineWear {
  const { measure } = pool;
  const read = (observations: WearObservations): Reading => ({
    observations,
    fit: fitEngineWear(observations, pool, xNow, scale),
  });
  const renewed =
    steps.length === 0 ? null : read(wearObservations(conditioned, measure, { steps, reading: "renewed" }));
  const held = steps.length === 0 ? null : read(wearObservations(conditioned, measure, { steps, reading: "held" }));
  const base = renewed ?? {
    observations: plain,
    fit: fitEngineWear(plain, pool, xNow, scale, otherParts(other), parts()),
  };

  const latest = latestReadings(conditioned, measure);
  const cylinders: CylinderWear[] = [];
  for (let cylinder = 1; cylinder <= plain.cylinders; cylinder++) {
    const own = latest.get(cylinder);
    const segment = plain.segments.find((s) => s.cylinder === cylinder && s.current);
    const usableTests = segment?.usableTests ?? 0;
    const enough = usableTests >= fewestTests && (segment?.ownTests ?? 0) > 0;
    const some = (segment?.ownTests ?? 0) > 0;
    const branches = some ? branchesOf(cylinder, base, held, steps) : [];
    const fit = base.fit.cylinders[cylinder - 1] as CylinderFit;
    cylinders.push({
      cylinder,
      measure,
      tests: own?.tests ?? 0,
      usableTests,
      latest: own?.badness ?? null,
      enough,
      branches,
      ownShare: fit.ownShare,
      faults: some ? fit.faults : [],
      levelAtLastTest: some
        ? likelyLevel(
            branches.map((b) => atLast(b, lastTestAt(base, cylinder))),
            scale,
          )
        : null,
      carried: usableTests >= fewestTests ? withSharedVariance(base, fit.carried) : [],
    });
  }
  return { measure, pool, scale, cylinders, sharedUncertainty: base.fit.sharedUncertainty, stepped: base.fit.stepped };
}

function branchesOf(
  cylinder: number,
  base: Reading,
  held: Reading | null,
  steps: readonly BelievedStep[],
): readonly WearBranch[] {
  const step = steps
    .filter((s) => s.cylinders.includes(cylinder))
    .toSorted((a, b) => a.afterX - b.afterX || (a.date < b.date ? -1 : 1))
    .at(-1);
  if (held === null || step === undefined) return branchesIn(base, cylinder);
  const share = (branches: readonly WearBranch[], of: number) =>
    branches.map((b) => ({ ...b, probability: of * b.probability }));
  return [...share(branchesIn(base, cylinder), step.believed), ...share(branchesIn(held, cylinder), 1 - step.believed)];
}

/** The altitude that nobody recorded is wrong by the same share each time: it widens the level, not the trend. */
const withSharedVariance = ({ observations }: Reading, branches: readonly WearBranch[]): readonly WearBranch[] =>
  branches.map((b) => ({ ...b, levelVariance: b.levelVariance + observations.sharedLevelVariance }));

const branchesIn = (reading: Reading, cylinder: number): readonly WearBranch[] =>
  withSharedVariance(reading, (reading.fit.cylinders[cylinder - 1] as CylinderFit).branches);

/** Wear meter of the cylinder's last reading within its current baseline; without one, now. */
function lastTestAt({ observations }: Reading, cylinder: number): number {
  const segment = observations.segments.findIndex((s) => s.cylinder === cylinder && s.current);
  return observations.tests.findLast((t) => t.segment.includes(segment))?.x ?? Number.POSITIVE_INFINITY;
}

/** The branch's level as it was at wear meter `x`. */
function atLast(b: WearBranch, x: number): WearBranch {
  const ago = Math.max(0, clockAt(b.clock, b.now) - clockAt(b.clock, Math.min(x, b.now)));
  return {
    ...b,
    level: b.level - b.rate * ago,
    levelVariance: Math.max(0, b.levelVariance - 2 * ago * b.covariance + ago ** 2 * b.rateVariance),
  };
}

function latestReadings(
  conditioned: ConditionedEngine,
  measure: JudgedMeasure,
): Map<number, { tests: number; badness: number }> {
  const latest = new Map<number, { tests: number; badness: number }>();
  for (const { test } of conditioned.tests) {
    if (test.measure !== measure) continue;
    for (const reading of test.readings) {
      const tests = (latest.get(reading.cylinder)?.tests ?? 0) + 1;
      latest.set(reading.cylinder, { tests, badness: worseSign[measure] * reading.value });
    }
  }
  return latest;
}

/**
 * The level that the true one is as likely above as below: the median over the branches. Where a step is not settled, a
 * mean would lie between the old level and the new one, where hardly anybody believes it to be; and a median at the limit
 * is the same as an even chance to have crossed it.
 */
export const likelyLevel = (branches: readonly WearBranch[], scale: WearScale): number =>
  levelQuantilesAhead(branches, scale, 0)[2];

/** Mean and variance of the rate now over the branches, in badness for each unit of the meter. */
export function expectedRate(branches: readonly WearBranch[], scale: WearScale): { mean: number; variance: number } {
  let mean = 0;
  let square = 0;
  for (const b of branches) {
    const perUnit = clockSpeed(b.clock, b.now) / scale.slope(scale.back(b.level));
    const rate = b.rate * perUnit;
    mean += b.probability * rate;
    square += b.probability * (rate ** 2 + b.rateVariance * perUnit ** 2);
  }
  return { mean, variance: Math.max(0, square - mean ** 2) };
}

/** How far those lie off, in the spread of the others. */
const farOffSds = 2.5;

/** A cylinder of a model of which only the pool is known, never tested or too seldom, at wear meter `before.first`: now. */
export function poolBranches(pool: WearPool, before: Before): WearBranch[] {
  return lifeStarts(before, pool.usualLife).flatMap(({ from, share }) =>
    pool.shapes.flatMap((shape) => {
      const clock = { from: Math.min(from, before.first), power: shape.power, unit: pool.clockUnit };
      const now = clockAt(clock, before.first);
      const levelVariance = shape.levelSd ** 2 + shape.ownLevelSd ** 2;
      const rateVariance = shape.rateSd ** 2 + shape.ownRateSd ** 2;
      const branch = (probability: number, sds: number): WearBranch => ({
        probability: share * shape.weight * probability,
        level: shape.levelMean + shape.rateMean * now,
        rate: shape.rateMean,
        levelVariance: sds ** 2 * (levelVariance + now ** 2 * rateVariance) + (shape.wander + shape.ownWander) * now,
        rateVariance: sds ** 2 * rateVariance,
        covariance: sds ** 2 * now * rateVariance,
        wander: shape.wander + shape.ownWander,
        clock,
        now: before.first,
        isFault: false,
      });
      return [branch(1 - farOffShare, 1), branch(farOffShare, farOffSds)];
    }),
  );
}
