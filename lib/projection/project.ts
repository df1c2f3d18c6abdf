import { worseSign } from "../condition/series.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import { levelQuantilesAhead } from "./fan.ts";
import { type WearObservations, wearObservations } from "./observations.ts";
import type { CylinderWear, EngineWear, WearBranch, WearPool } from "./types.ts";
import { type EngineFit, fitEngineWear } from "./wear-model.ts";
import { type BelievedStep, worsenings } from "./worsening.ts";

/** Tests that a range must rest on; with fewer the pool would do all the talking. */
export const fewestTests = 3;

/** How far an improvement that nobody explained is believed, by the number of usable tests since. */
const believedAfter = [0.5, 0.5, 0.75, 0.9];

/** The improvements of one measure that nobody explained, as steps of the wear. */
export function improvedSteps(conditioned: ConditionedEngine, measure: JudgedMeasure): BelievedStep[] {
  return conditioned.improvements
    .filter((improvement) => improvement.measure === measure)
    .map(({ cylinders, afterX, date, testsSince }) => ({
      cylinders,
      afterX,
      date,
      to: "better",
      believed: believedAfter[Math.min(testsSince, believedAfter.length - 1)] ?? 0.5,
    }));
}

interface Reading {
  readonly fit: EngineFit;
  readonly observations: WearObservations;
  readonly pool: WearPool;
  readonly xNow: number;
}

/**
 * Level and rate of every cylinder of an engine at wear meter `xNow`, for one measure, under a pool.
 *
 * Where an improvement has no repair on file, both pasts stay open for the cylinders concerned: that the readings since
 * mislead (the old level and rate go on), and that the cylinder was renewed. Each is a branch; the second weighs more
 * with every test that bears it out. In the same way a cylinder that has just stepped away from its siblings for the
 * worse (worsening.ts) is either truly so, or was misread. Of several steps of a cylinder the last one is open, those
 * before it are taken as they read.
 */
export function projectEngine(
  conditioned: ConditionedEngine,
  measure: JudgedMeasure,
  pool: WearPool,
  xNow: number,
): EngineWear {
  const plain = wearObservations(conditioned, measure);
  const improved = improvedSteps(conditioned, measure);
  const sinceImproved =
    improved.length === 0 ? plain : wearObservations(conditioned, measure, { steps: improved, reading: "renewed" });
  const steps = [...improved, ...worsenings(sinceImproved, pool)];
  const renewed =
    steps.length === 0 ? null : read(wearObservations(conditioned, measure, { steps, reading: "renewed" }));
  const held = steps.length === 0 ? null : read(wearObservations(conditioned, measure, { steps, reading: "held" }));
  const base = renewed ?? read(plain);

  function read(observations: WearObservations): Reading {
    return { observations, fit: fitEngineWear(observations, pool, xNow), pool, xNow };
  }

  const latest = latestReadings(conditioned, measure);
  const cylinders: CylinderWear[] = [];
  for (let cylinder = 1; cylinder <= plain.cylinders; cylinder++) {
    const own = latest.get(cylinder);
    const segment = plain.segments.find((s) => s.cylinder === cylinder && s.current);
    const usableTests = segment?.usableTests ?? 0;
    const enough = usableTests >= fewestTests && (segment?.ownTests ?? 0) > 0;
    const some = (segment?.ownTests ?? 0) > 0;
    const branches = some ? branchesOf(cylinder, base, held, steps) : [];
    cylinders.push({
      cylinder,
      measure,
      tests: own?.tests ?? 0,
      usableTests,
      latest: own?.badness ?? null,
      enough,
      branches,
      levelAtLastTest: some ? likelyLevel(branches.map((b) => atLast(b, sinceLastTest(base, cylinder)))) : null,
      carried: segment?.begunBy === "top-end" && !some && usableTests >= fewestTests ? [branch(base, cylinder, 1)] : [],
    });
  }
  return { measure, pool, cylinders, sharedUncertainty: base.fit.sharedUncertainty };
}

function branchesOf(
  cylinder: number,
  base: Reading,
  held: Reading | null,
  steps: readonly BelievedStep[],
): WearBranch[] {
  const step = steps
    .filter((s) => s.cylinders.includes(cylinder))
    .toSorted((a, b) => a.afterX - b.afterX || (a.date < b.date ? -1 : 1))
    .at(-1);
  if (held === null || step === undefined) return [branch(base, cylinder, 1)];
  return [branch(base, cylinder, step.believed), branch(held, cylinder, 1 - step.believed)];
}

function branch(reading: Reading, cylinder: number, probability: number): WearBranch {
  const { fit, observations, pool } = reading;
  const state = fit.states[currentSegment(observations, cylinder)];
  if (state === undefined) throw new Error(`wear model: cylinder ${cylinder} has no current segment`);
  // Since its last test the true level has gone on wandering about its line.
  const wandered = pool.wanderVariance * sinceLastTest(reading, cylinder);
  return { probability, ...state, levelVariance: state.levelVariance + observations.sharedLevelVariance + wandered };
}

const currentSegment = ({ segments }: WearObservations, cylinder: number): number =>
  segments.findIndex((s) => s.cylinder === cylinder && s.current);

/** Use since the cylinder's last reading within its current baseline; 0 where there is none. */
function sinceLastTest({ observations, xNow }: Reading, cylinder: number): number {
  const segment = currentSegment(observations, cylinder);
  const last = observations.tests.findLast((t) => t.segment.includes(segment));
  return last === undefined ? 0 : Math.max(0, xNow - last.x);
}

/** The branch's level as it was some use ago. */
const atLast = (b: WearBranch, ago: number): WearBranch => ({
  ...b,
  level: b.level - b.rate * ago,
  levelVariance: Math.max(0, b.levelVariance - 2 * ago * b.covariance + ago ** 2 * b.rateVariance),
});

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
export const likelyLevel = (branches: readonly WearBranch[]): number => levelQuantilesAhead(branches, 0, 0)[2];

/** Mean and variance of the rate over the branches, per meter. */
export function expectedRate(branches: readonly WearBranch[]): { mean: number; variance: number } {
  const mean = branches.reduce((sum, b) => sum + b.probability * b.rate, 0);
  const variance = branches.reduce((sum, b) => sum + b.probability * (b.rateVariance + (b.rate - mean) ** 2), 0);
  return { mean, variance };
}

/** An untested engine may be one of the few that lie far off, which the pool's own spread leaves out (pool.ts, cap). */
const farOffShare = 0.2;
const farOffSds = 2.5;

/** A cylinder of a model of which only the pool is known: never tested, or too seldom. */
export function poolBranches(pool: WearPool): WearBranch[] {
  const branch = (probability: number, sds: number): WearBranch => ({
    probability,
    level: pool.levelMean,
    rate: pool.rateMean,
    levelVariance: sds ** 2 * (pool.levelSd ** 2 + pool.cylinderLevelSd ** 2),
    rateVariance: sds ** 2 * (pool.rateSd ** 2 + pool.cylinderRateSd ** 2),
    covariance: 0,
  });
  return [branch(1 - farOffShare, 1), branch(farOffShare, farOffSds)];
}
