import { fingerprintOf } from "../fingerprint.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import type { JudgedMeasure, MeterUnit } from "../schema/words.ts";
import type { WearObservations } from "./observations.ts";
import { type PriorPool, priorEngines, priorPool } from "./priors.ts";
import type { WearPool } from "./types.ts";

/**
 * Empirical Bayes: the parameters of a model's wear, estimated from its engines by moments and weighed against the
 * starting values of priors.ts, which count as a few engines more. Between-engine variances solve the generalised
 * Q equation of Paule and Mandel 1982 (as DerSimonian and Kacker 2007 describe it), with squared deviations capped at
 * nine so that one failing engine does not widen all others.
 */

const cap = 9;

/** Engines that a pool is fitted on at most: more add cost but hardly precision. The caller picks them evenly. */
export const engineSample = 400;
const testsPerEngine = 40;

interface Estimate {
  readonly value: number;
  /** Variance of its sampling error, given the error variances. */
  readonly variance: number;
}

interface EngineMoments {
  readonly level: Estimate;
  readonly rate: Estimate | null;
  readonly cylinderLevels: readonly Estimate[];
  readonly cylinderRates: readonly Estimate[];
}

/** Sums of squared standardised residuals, with their degrees of freedom. */
interface ResidualSum {
  readonly squares: number[];
  degrees: number;
}

export interface PoolInput {
  readonly key: string;
  readonly observations: WearObservations;
}

/**
 * Fits one pool. Any number of engines, also none: then it is the prior itself. Engines with one or two tests add to
 * the level only. The order of the engines does not matter. Cost is linear in their
 * tests; give at most `engineSample` of them.
 */
export function fitWearPool(
  model: EngineModel,
  measure: JudgedMeasure,
  meterUnit: MeterUnit,
  inputs: readonly PoolInput[],
): WearPool {
  const prior = priorPool(model, measure, meterUnit);
  const engines = inputs
    .filter((e) => e.observations.tests.length > 0)
    .toSorted((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));

  const readingFactor = Math.sqrt(fitReadingVariance(engines, prior));
  const scaled: PriorPool = {
    ...prior,
    readingSd: prior.readingSd * readingFactor,
    readingShare: prior.readingShare * readingFactor,
  };
  const testSd = Math.sqrt(fitTestVariance(engines, scaled));
  const moments = engines.map((e) => engineMoments(e, { ...scaled, testSd }));

  const rates = moments.flatMap((m) => (m.rate === null ? [] : [m.rate]));
  const rateSd = Math.sqrt(betweenVariance(rates, prior.rateSd ** 2, null));
  const rateMean = pooledMean(rates, rateSd ** 2, {
    value: prior.rateMean,
    variance: prior.rateSd ** 2 / priorEngines,
  });
  const levels = moments.map((m) => m.level);
  const levelSd = Math.sqrt(betweenVariance(levels, prior.levelSd ** 2, null));
  const levelMean = pooledMean(levels, levelSd ** 2, {
    value: prior.levelMean,
    variance: prior.levelSd ** 2 / priorEngines,
  });
  const cylinderLevels = moments.flatMap((m) => m.cylinderLevels);
  const cylinderRates = moments.flatMap((m) => m.cylinderRates);
  const pool: Omit<WearPool, "fingerprint"> = {
    engineModel: model.id,
    measure,
    meterUnit,
    engines: engines.length,
    tests: engines.reduce((sum, e) => sum + e.observations.tests.length, 0),
    levelMean,
    levelSd,
    rateMean,
    rateSd,
    cylinderLevelSd: Math.sqrt(betweenVariance(cylinderLevels, prior.cylinderLevelSd ** 2, 0)),
    cylinderRateSd: Math.sqrt(betweenVariance(cylinderRates, prior.cylinderRateSd ** 2, 0)),
    testSd,
    readingSd: scaled.readingSd,
    readingShare: scaled.readingShare,
    wanderVariance: prior.wanderVariance,
  };
  return { ...pool, fingerprint: fingerprintOf(JSON.stringify(pool)) };
}

/** The tests that moments are taken from: complete ones (all cylinders that the engine's fullest test has). */
function completeTests({ observations }: PoolInput) {
  const most = observations.tests.reduce((n, t) => Math.max(n, t.badness.length), 0);
  return observations.tests
    .filter((t) => t.badness.length === most && t.weight >= 0.5 && t.weights.every((w) => w >= 0.5))
    .slice(-testsPerEngine);
}

const ownVariance = (prior: PriorPool, level: number, referral: number): number =>
  prior.readingSd ** 2 + (prior.readingShare * Math.max(0, level)) ** 2 + referral;

interface Series {
  readonly xs: number[];
  readonly ys: number[];
  readonly variances: number[];
}

/**
 * Each segment's readings less their test's mean: free of the test's common error and of the engine's own wear. The mean
 * takes 1/n of the variance away, of the cylinders' own spread as of the errors; the deviations are stretched by as much.
 */
function deviationsBySegment(input: PoolInput, prior: PriorPool): Map<number, Series> {
  const bySegment = new Map<number, Series>();
  for (const test of completeTests(input)) {
    const n = test.badness.length;
    if (n < 2) continue;
    const mean = test.badness.reduce((a, b) => a + b, 0) / n;
    for (let k = 0; k < n; k++) {
      const s = test.segment[k] as number;
      const series = bySegment.get(s) ?? { xs: [], ys: [], variances: [] };
      bySegment.set(s, series);
      series.xs.push(test.x);
      series.ys.push(((test.badness[k] as number) - mean) * Math.sqrt(n / (n - 1)));
      series.variances.push(ownVariance(prior, test.badness[k] as number, test.referralVariance[k] as number));
    }
  }
  return bySegment;
}

/** Each test's mean over its cylinders, within the stretch during which the same segments ran. */
function meansByStretch(input: PoolInput, prior: PriorPool): Series[] {
  const stretches = new Map<string, Series>();
  for (const test of completeTests(input)) {
    const n = test.badness.length;
    const key = test.segment.join();
    const series = stretches.get(key) ?? { xs: [], ys: [], variances: [] };
    stretches.set(key, series);
    series.xs.push(test.x);
    series.ys.push(test.badness.reduce((a, b) => a + b, 0) / n);
    let own = 0;
    for (let k = 0; k < n; k++) {
      own += ownVariance(prior, test.badness[k] as number, test.referralVariance[k] as number);
    }
    series.variances.push(own / n ** 2);
  }
  return [...stretches.values()];
}

interface Line {
  readonly slope: number;
  readonly mean: number;
  readonly xMean: number;
  /** Sum of squared distances of x from its mean. */
  readonly xSpread: number;
}

/** Least squares; null with fewer than two distinct x. */
function line({ xs, ys }: Series): Line | null {
  const n = xs.length;
  const xMean = xs.reduce((a, b) => a + b, 0) / n;
  const mean = ys.reduce((a, b) => a + b, 0) / n;
  let xSpread = 0;
  let cross = 0;
  for (let i = 0; i < n; i++) {
    const dx = (xs[i] as number) - xMean;
    xSpread += dx * dx;
    cross += dx * ((ys[i] as number) - mean);
  }
  return xSpread > 0 ? { slope: cross / xSpread, mean, xMean, xSpread } : null;
}

const residual = (l: Line, series: Series, i: number): number =>
  (series.ys[i] as number) - l.mean - l.slope * ((series.xs[i] as number) - l.xMean);

/** How much larger the readings' own error variance is than the starting values say. */
function fitReadingVariance(engines: readonly PoolInput[], prior: PriorPool): number {
  const sum: ResidualSum = { squares: [], degrees: 0 };
  for (const engine of engines) {
    for (const series of deviationsBySegment(engine, prior).values()) {
      const fit = series.xs.length >= 3 ? line(series) : null;
      if (fit === null) continue;
      for (let i = 0; i < series.xs.length; i++) {
        sum.squares.push(residual(fit, series, i) ** 2 / (series.variances[i] as number));
      }
      sum.degrees += series.xs.length - 2;
    }
  }
  return cappedVariance(sum, 1, 10);
}

/** Variance of the error that a test's readings share. */
function fitTestVariance(engines: readonly PoolInput[], prior: PriorPool): number {
  const sum: ResidualSum = { squares: [], degrees: 0 };
  let ownPart = 0;
  for (const engine of engines) {
    for (const series of meansByStretch(engine, prior)) {
      const fit = series.xs.length >= 3 ? line(series) : null;
      if (fit === null) continue;
      for (let i = 0; i < series.xs.length; i++) {
        sum.squares.push(residual(fit, series, i) ** 2);
        ownPart += series.variances[i] as number;
      }
      sum.degrees += series.xs.length - 2;
    }
  }
  const start = prior.testSd ** 2;
  if (sum.squares.length === 0) return start;
  const own = ownPart / sum.squares.length;
  return Math.max(cappedVariance(sum, start + own, 10) - own, (0.2 * prior.testSd) ** 2);
}

/**
 * Variance from squared residuals, each capped at nine times the variance itself, joined with a starting value that
 * counts as `startDegrees` degrees of freedom (the mean of a scaled inverse chi-square posterior, without its -2).
 */
function cappedVariance({ squares, degrees }: ResidualSum, start: number, startDegrees: number): number {
  let variance = start;
  for (let pass = 0; pass < 20; pass++) {
    const limit = cap * variance;
    let sum = startDegrees * start;
    for (const s of squares) sum += Math.min(s, limit);
    const next = sum / (degrees + startDegrees);
    if (Math.abs(next - variance) <= 1e-9 * variance) return next;
    variance = next;
  }
  return variance;
}

function engineMoments(input: PoolInput, pool: PriorPool): EngineMoments {
  const testVariance = pool.testSd ** 2;
  const stretches = meansByStretch(input, pool);
  let rate: Estimate | null = null;
  let levelSum = 0;
  let levelCount = 0;
  let slopeWeight = 0;
  let slopeSum = 0;
  let points = 0;
  for (const series of stretches) {
    const variance = testVariance + (series.variances.reduce((a, b) => a + b, 0) / series.xs.length || 0);
    levelSum += series.ys.reduce((a, b) => a + b, 0);
    levelCount += series.ys.length;
    const fit = line(series);
    if (fit === null) continue;
    slopeSum += (fit.slope * fit.xSpread) / variance;
    slopeWeight += fit.xSpread / variance;
    points += series.xs.length;
  }
  if (slopeWeight > 0 && points >= 3) rate = { value: slopeSum / slopeWeight, variance: 1 / slopeWeight };

  const cylinderLevels: Estimate[] = [];
  const cylinderRates: Estimate[] = [];
  for (const series of deviationsBySegment(input, pool).values()) {
    const n = series.xs.length;
    const variance = series.variances.reduce((a, b) => a + b, 0) / n;
    cylinderLevels.push({ value: series.ys.reduce((a, b) => a + b, 0) / n, variance: variance / n });
    const fit = n >= 3 ? line(series) : null;
    if (fit !== null) cylinderRates.push({ value: fit.slope, variance: variance / fit.xSpread });
  }
  const level =
    levelCount > 0
      ? { value: levelSum / levelCount, variance: testVariance / levelCount }
      : firstLevel(input, testVariance);
  return { level, rate, cylinderLevels, cylinderRates };
}

/** Where no test is complete: the mean of all readings. */
function firstLevel({ observations }: PoolInput, testVariance: number): Estimate {
  const all = observations.tests.flatMap((t) => t.badness);
  return { value: all.reduce((a, b) => a + b, 0) / all.length, variance: testVariance };
}

/**
 * Variance between groups: the tau² at which the sum of (value - mean)² / (variance + tau²) meets its degrees of
 * freedom. The starting value takes part as `priorEngines` groups. `mean` null: estimated too.
 */
function betweenVariance(estimates: readonly Estimate[], start: number, mean: number | null): number {
  if (estimates.length === 0) return start;
  const degrees = estimates.length - (mean === null ? 1 : 0) + priorEngines;
  const excess = (tau: number): number => {
    const m = mean ?? weightedMean(estimates, tau);
    let q = (priorEngines * start) / tau;
    for (const e of estimates) q += Math.min(cap, (e.value - m) ** 2 / (e.variance + tau));
    return q - degrees;
  };
  // The sum falls as tau² grows: halve the logarithm of the interval until it is narrow.
  let low = start * 1e-3;
  let high = start * 1e4;
  for (let pass = 0; pass < 60; pass++) {
    const middle = Math.sqrt(low * high);
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return Math.sqrt(low * high);
}

/** Mean weighed by precision, what lies more than two standard deviations off its median weighing less (Huber 1964). */
function weightedMean(estimates: readonly Estimate[], tau: number): number {
  const sorted = estimates.map((e) => e.value).toSorted((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)] as number;
  let sum = 0;
  let weights = 0;
  for (const e of estimates) {
    const distance = Math.abs(e.value - middle) / Math.sqrt(e.variance + tau);
    const weight = Math.min(1, 2 / Math.max(distance, 1e-12)) / (e.variance + tau);
    sum += weight * e.value;
    weights += weight;
  }
  return sum / weights;
}

/** The weighted mean of the groups, joined with what is known beforehand. */
function pooledMean(estimates: readonly Estimate[], tau: number, start: Estimate): number {
  if (estimates.length === 0) return start.value;
  const precision = estimates.reduce((sum, e) => sum + 1 / (e.variance + tau), 0);
  const mean = weightedMean(estimates, tau);
  return (mean * precision + start.value / start.variance) / (precision + 1 / start.variance);
}
