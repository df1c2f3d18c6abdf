import type { WearObservations } from "./observations.ts";
import { rateAfterEvent, thousandHoursOf } from "./priors.ts";
import type { WearPool } from "./types.ts";

/**
 * The wear of one engine, as a linear mixed model in closed form. For reading c of test t at wear meter x:
 *
 *   badness = (a + alpha_s) + (b + beta_s) (x - centre) + test error_t + own error_ct
 *
 * a and b are the level and rate that the engine's cylinders have in common, alpha and beta those of cylinder and
 * baseline (segment) s. All have normal priors whose parameters are the pool's; errors too. The test error is what moves
 * all cylinders of a test together (battery, temperature, gauge); it is integrated out, so a test whose readings all lie
 * high says little about any one cylinder. See Laird and Ware 1982 for the model and its posterior.
 *
 * Heavy tails: each error, and each deviation b, alpha, beta, is a scale mixture of normals (Student t, Lange, Little
 * and Taylor 1989), solved by reweighting: what lies r standard deviations out weighs min(1, (nu+1)/(nu+r²)). So one odd
 * reading, test or cylinder bends its siblings little.
 */

/**
 * A cylinder's level after a repair or a step lies about its engine's with this many standard deviations of the model's
 * engines: new valves may cure most of a leak that all its siblings keep, or of one that they all had.
 */
const newBaselineSds = 2;

const tailFreedom = 4;
const reweightings = 4;
const tailWeight = (rSquared: number): number => Math.min(1, (tailFreedom + 1) / (tailFreedom + rSquared));

/** Joint normal state of one segment at a wear meter. Level in badness, rate per meter. */
export interface SegmentState {
  readonly level: number;
  readonly rate: number;
  readonly levelVariance: number;
  readonly rateVariance: number;
  readonly covariance: number;
}

export interface EngineFit {
  /** As `observations.segments`. */
  readonly states: readonly SegmentState[];
  /** Mean correlation, over pairs of current segments, of the level one thousand hours' use ahead; 0 for one cylinder. */
  readonly sharedUncertainty: number;
}

/**
 * Posterior level and rate of every segment at wear meter `xNow`, given the pool. Works with any number of tests, from
 * none (the pool itself) on.
 */
export function fitEngineWear(observations: WearObservations, pool: WearPool, xNow: number): EngineFit {
  const { tests, segments } = observations;
  const scale = thousandHoursOf[pool.meterUnit];
  const centre = tests.length === 0 ? xNow : tests.reduce((sum, t) => sum + t.x, 0) / tests.length;
  const size = 2 + 2 * segments.length;
  const precision = new Float64Array(size * size);
  const right = new Float64Array(size);
  let theta = new Float64Array(size);
  theta[0] = pool.levelMean;
  theta[1] = pool.rateMean * scale;
  let started = false;

  const { mean: priorMean, sd: priorSd } = priorsOf(observations, pool, scale);
  const testVariance = pool.testSd ** 2;
  const gLocal: number[] = [];

  for (let pass = 0; pass < reweightings; pass++) {
    precision.fill(0);
    right.fill(0);
    for (let i = 0; i < size; i++) {
      const sd = priorSd[i] as number;
      const mean = priorMean[i] as number;
      // The common level keeps its normal prior: a fleet's levels spread widely, and tests fix the level anyway.
      const weight = started && i > 0 ? tailWeight((((theta[i] as number) - mean) / sd) ** 2) : 1;
      const p = weight / (sd * sd);
      precision[i * size + i] = p;
      right[i] = p * mean;
    }
    for (const test of tests) {
      const xi = (test.x - centre) / scale;
      const n = test.badness.length;
      // Own errors: their precision d, from the level itself (errors grow with it) and the last pass's residuals.
      let sumD = 0;
      let sumDE = 0;
      gLocal.length = 0;
      for (let k = 0; k < n; k++) {
        const s = 2 + 2 * (test.segment[k] as number);
        const y = test.badness[k] as number;
        const fitted = started
          ? (theta[0] as number) + (theta[s] as number) + ((theta[1] as number) + (theta[s + 1] as number)) * xi
          : y;
        const own = pool.readingSd ** 2 + (pool.readingShare * Math.max(0, fitted)) ** 2;
        const d = (test.weights[k] as number) / (own + (test.referralVariance[k] as number));
        gLocal.push(d);
        sumD += d;
        sumDE += d * (y - fitted);
      }
      let testPrecision = test.weight ** 2 / testVariance;
      if (started) {
        const effect = sumDE / (testPrecision + sumD);
        testPrecision *= tailWeight((effect * effect) / testVariance);
        sumD = 0;
        for (let k = 0; k < n; k++) {
          const s = 2 + 2 * (test.segment[k] as number);
          const fitted =
            (theta[0] as number) + (theta[s] as number) + ((theta[1] as number) + (theta[s + 1] as number)) * xi;
          const d = gLocal[k] as number;
          const reweighted = d * tailWeight(((test.badness[k] as number) - fitted - effect) ** 2 * d);
          gLocal[k] = reweighted;
          sumD += reweighted;
        }
      }
      addTest(precision, right, size, test.segment, test.badness, gLocal, xi, 1 / (testPrecision + sumD));
    }
    choleskyInPlace(precision, size);
    theta = solveCholesky(precision, size, right);
    started = true;
  }

  const xiNow = (xNow - centre) / scale;
  const current: Float64Array[] = [];
  const states = segments.map((segment, index): SegmentState => {
    const s = 2 + 2 * index;
    const level = halfSolve(precision, size, s, 1, xiNow);
    const rate = halfSolve(precision, size, s, 0, 1);
    if (segment.current) current.push(halfSolve(precision, size, s, 1, xiNow + 1));
    return {
      level: (theta[0] as number) + (theta[s] as number) + ((theta[1] as number) + (theta[s + 1] as number)) * xiNow,
      rate: ((theta[1] as number) + (theta[s + 1] as number)) / scale,
      levelVariance: dot(level, level),
      rateVariance: dot(rate, rate) / scale ** 2,
      covariance: dot(level, rate) / scale,
    };
  });
  return { states, sharedUncertainty: meanCorrelation(current) };
}

/** Prior mean and standard deviation of a, b, and of each segment's alpha and beta; rates for each 1,000 hours' use. */
function priorsOf({ segments }: WearObservations, pool: WearPool, scale: number) {
  const mean = new Float64Array(2 + 2 * segments.length);
  const sd = new Float64Array(mean.length);
  mean[0] = pool.levelMean;
  mean[1] = pool.rateMean * scale;
  sd[0] = pool.levelSd;
  sd[1] = pool.rateSd * scale;
  const event = rateAfterEvent(pool);
  for (const [s, { begunBy, ownTests }] of segments.entries()) {
    const i = 2 + 2 * s;
    // Before its first test nothing is known of a new baseline but what the engine's cylinders have in common.
    const isNew = begunBy !== null && ownTests > 0;
    sd[i] = isNew ? newBaselineSds * pool.levelSd : pool.cylinderLevelSd;
    mean[i + 1] = begunBy === "worse" ? event.mean : 0;
    sd[i + 1] = begunBy === "worse" ? event.sd : pool.cylinderRateSd * scale;
  }
  return { mean, sd };
}

/**
 * Adds one test to the normal equations. With own precisions d and a common error, the precision of the readings is
 * diag(d) - kappa d dᵀ (Sherman and Morrison 1950), kappa = 1 / (1/testVariance + sum d).
 */
function addTest(
  precision: Float64Array,
  right: Float64Array,
  size: number,
  segment: readonly number[],
  badness: readonly number[],
  d: readonly number[],
  xi: number,
  kappa: number,
): void {
  let sumD = 0;
  let sumDY = 0;
  for (let k = 0; k < d.length; k++) {
    sumD += d[k] as number;
    sumDY += (d[k] as number) * (badness[k] as number);
  }
  const add = (i: number, j: number, v: number) => {
    precision[i * size + j] = (precision[i * size + j] as number) + v;
  };
  // Common level and rate, from all readings together.
  const common = sumD - kappa * sumD * sumD;
  add(0, 0, common);
  add(1, 0, common * xi);
  add(1, 1, common * xi * xi);
  const commonRight = sumDY - kappa * sumD * sumDY;
  right[0] = (right[0] as number) + commonRight;
  right[1] = (right[1] as number) + commonRight * xi;
  for (let k = 0; k < d.length; k++) {
    const dk = d[k] as number;
    const s = 2 + 2 * (segment[k] as number);
    const cross = dk - kappa * dk * sumD;
    add(s, 0, cross);
    add(s, 1, cross * xi);
    add(s + 1, 0, cross * xi);
    add(s + 1, 1, cross * xi * xi);
    const own = dk * (badness[k] as number) - kappa * dk * sumDY;
    right[s] = (right[s] as number) + own;
    right[s + 1] = (right[s + 1] as number) + own * xi;
    for (let l = 0; l < d.length; l++) {
      const t = 2 + 2 * (segment[l] as number);
      if (t > s) continue;
      const v = (k === l ? dk : 0) - kappa * dk * (d[l] as number);
      add(s, t, v);
      add(s + 1, t, v * xi);
      add(s + 1, t + 1, v * xi * xi);
      // Within one segment the pair (level, rate) is symmetric: only its lower half is kept.
      if (t < s) add(s, t + 1, v * xi);
    }
  }
}

/** Lower Cholesky factor of a symmetric positive definite matrix given by its lower half, in place. */
function choleskyInPlace(a: Float64Array, n: number): void {
  for (let j = 0; j < n; j++) {
    for (let i = j; i < n; i++) {
      let sum = a[i * n + j] as number;
      for (let k = 0; k < j; k++) sum -= (a[i * n + k] as number) * (a[j * n + k] as number);
      if (i === j) {
        if (!(sum > 0)) throw new Error("wear model: precision matrix is not positive definite");
        a[j * n + j] = Math.sqrt(sum);
      } else {
        a[i * n + j] = sum / (a[j * n + j] as number);
      }
    }
  }
}

function solveCholesky(l: Float64Array, n: number, right: Float64Array): Float64Array<ArrayBuffer> {
  const x = forward(l, n, right);
  for (let i = n - 1; i >= 0; i--) {
    let sum = x[i] as number;
    for (let k = i + 1; k < n; k++) sum -= (l[k * n + i] as number) * (x[k] as number);
    x[i] = sum / (l[i * n + i] as number);
  }
  return x;
}

function forward(l: Float64Array, n: number, right: Float64Array): Float64Array<ArrayBuffer> {
  const x = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let sum = right[i] as number;
    for (let k = 0; k < i; k++) sum -= (l[i * n + k] as number) * (x[k] as number);
    x[i] = sum / (l[i * n + i] as number);
  }
  return x;
}

/** L⁻¹ u for the functional u = onLevel·(a + alpha) + onRate·(b + beta) of a segment: dot products give covariances. */
function halfSolve(l: Float64Array, n: number, s: number, onLevel: number, onRate: number): Float64Array {
  const u = new Float64Array(n);
  u[0] = onLevel;
  u[s] = onLevel;
  u[1] = onRate;
  u[s + 1] = onRate;
  return forward(l, n, u);
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}

function meanCorrelation(vectors: readonly Float64Array[]): number {
  let sum = 0;
  let pairs = 0;
  for (const [i, a] of vectors.entries()) {
    for (const b of vectors.slice(i + 1)) {
      sum += dot(a, b) / Math.sqrt(dot(a, a) * dot(b, b));
      pairs++;
    }
  }
  return pairs === 0 ? 0 : Math.min(0.98, Math.max(0, sum / pairs));
}
