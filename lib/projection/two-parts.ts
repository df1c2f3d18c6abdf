import type { FaultRuling, TestObservation, WearObservations } from "./observations.ts";
import type { WearScale } from "./scale.ts";

/**
 * The readings of an engine, parted into what a test says of all cylinders together and what it says of each one beside
 * them. Most of a test's error is common to all its readings (battery, temperature, gauge), so that it is in the common
 * part alone, and a cylinder's own part is the sharper witness. With cylinders that err alike the two parts are
 * independent (an orthogonal rotation of the readings), and level and rate of a cylinder are their sums.
 *
 * The common part is a weighted mean of the cylinders less their offsets, found by turns (two-way fit), in which a
 * cylinder with a fault has next to no say.
 */
export interface TwoParts {
  /** Wear meter of each test. */
  readonly x: readonly number[];
  readonly common: Part;
  /** For each cylinder, its readings less the common part of their tests. */
  readonly own: readonly OwnPart[];
}

/** A cylinder's readings beside the common part; with the test of each, what was heard at it, and what a person ruled. */
export interface OwnPart extends Part {
  readonly test: readonly number[];
  readonly heard: readonly number[];
  readonly ruled: readonly FaultRuling[];
}

/** One course, but for its clock. Levels on the wear scale. */
export interface Part {
  readonly x: readonly number[];
  readonly level: readonly number[];
  /** Of the test's common error and of the readings' own errors: factors on the pool's variances, by the scale's slope. */
  readonly testFactor: readonly number[];
  readonly ownFactor: readonly number[];
  /** What referring and rounding the readings added. */
  readonly added: readonly number[];
  /** How likely each was spoilt by the way the test was made, before it is looked at; 0: a person takes it as it is. */
  readonly spoilt: readonly number[];
  readonly renewed: readonly boolean[];
}

/** A reading's own error beside rounding: variance in badness², from the level. */
export interface OwnError {
  readonly readingSd: number;
  readonly readingShare: number;
}

/** Turns of the two-way fit; new baselines of some cylinders hang together through the others alone, and take more. */
const passes = 4;
const passesWithRenewals = 24;
/** Degrees of freedom of a reading above and below the common part: few let a far one weigh little. */
const lopsided = { above: 2, below: 6 };
const even = { above: 8, below: 8 };
/** What a reading weighs in the common part once its cylinder is known to have a fault. */
const faultyShare = 0.02;

/**
 * @param faultyFrom for each cylinder, the index of the first test from which on it is known to have a fault (null:
 *   none); without it, a first look in which a reading far above weighs little, so that a fault of half of the cylinders
 *   does not pass for the sound half's recovery
 */
export function twoParts(
  observations: WearObservations,
  scale: WearScale,
  error: OwnError,
  faultyFrom: readonly (number | null)[] | null,
): TwoParts {
  const { tests, cylinders, segments } = observations;
  const levels = smoothedLevels(observations);
  const z = tests.map((test) => test.badness.map((b) => scale.of(b)));
  const slope = tests.map((_, t) => (levels[t] as number[]).map((level) => scale.slope(level)));
  const variance = tests.map((test, t) =>
    test.badness.map((_, k) => {
      const level = Math.max(0, (levels[t] as number[])[k] as number);
      const own = error.readingSd ** 2 + (error.readingShare * level) ** 2;
      return (own * ((slope[t] as number[])[k] as number) ** 2) / (test.weights[k] as number);
    }),
  );
  const onScale = (of: (test: TestObservation) => readonly number[]) =>
    tests.map((test, t) => of(test).map((v, k) => v * ((slope[t] as number[])[k] as number) ** 2));
  const added = onScale((test) => test.referralVariance);
  const rounding = onScale((test) => test.roundingVariance);
  /** What the reading by itself is off by, whichever test it is of. */
  const single = variance.map((of, t) => of.map((v, k) => v + ((rounding[t] as number[])[k] as number)));

  const offset = new Float64Array(segments.length);
  const middle = tests.map((_, t) => mean(z[t] as number[]));
  const share: number[][] = tests.map((test) => test.badness.map(() => 1));
  const turns = cylinders === 1 ? 0 : segments.length > cylinders ? passesWithRenewals : passes;
  for (let pass = 0; pass < turns; pass++) {
    const sum = new Float64Array(segments.length);
    const weight = new Float64Array(segments.length);
    for (const [t, test] of tests.entries()) {
      for (const [k, s] of test.segment.entries()) {
        const w = ((share[t] as number[])[k] as number) / ((single[t] as number[])[k] as number);
        sum[s] = (sum[s] as number) + w * (((z[t] as number[])[k] as number) - (middle[t] as number));
        weight[s] = (weight[s] as number) + w;
      }
    }
    for (let s = 0; s < segments.length; s++)
      offset[s] = weight[s] === 0 ? 0 : (sum[s] as number) / (weight[s] as number);
    // One test cannot part what a cylinder always reads from what it read this once.
    if (tests.length === 1) offset.fill(0);
    centre(offset, observations);
    for (const [t, test] of tests.entries()) {
      let total = 0;
      let at = 0;
      for (const [k, s] of test.segment.entries()) {
        const own = (single[t] as number[])[k] as number;
        const residual = ((z[t] as number[])[k] as number) - (offset[s] as number) - (middle[t] as number);
        const { above, below } = faultyFrom === null ? lopsided : even;
        const freedom = residual > 0 ? above : below;
        const begun = faultyFrom?.[(segments[s]?.cylinder ?? 1) - 1] ?? null;
        const w =
          ((freedom + 1) / (freedom + (residual * residual) / own)) * (begun !== null && t >= begun ? faultyShare : 1);
        (share[t] as number[])[k] = w;
        total += w / own;
        at += (w / own) * (((z[t] as number[])[k] as number) - (offset[s] as number));
      }
      middle[t] = at / total;
    }
  }

  const common: MutablePart = emptyPart();
  const own = Array.from({ length: cylinders }, () => ({
    ...emptyPart(),
    test: [] as number[],
    heard: [] as number[],
    ruled: [] as FaultRuling[],
  }));
  const lastSegment = new Int32Array(cylinders).fill(-1);
  for (const [t, test] of tests.entries()) {
    let renewedCylinders = 0;
    let total = 0;
    for (const [k, s] of test.segment.entries()) {
      const c = (segments[s]?.cylinder ?? 1) - 1;
      if ((lastSegment[c] as number) >= 0 && lastSegment[c] !== s) renewedCylinders++;
      total += ((share[t] as number[])[k] as number) / ((single[t] as number[])[k] as number);
    }
    let ownOfMean = 0;
    let roundingOfMean = 0;
    let addedToMean = 0;
    let slopeOfMean = 0;
    for (const k of test.segment.keys()) {
      const w = ((share[t] as number[])[k] as number) / ((single[t] as number[])[k] as number) / total;
      ownOfMean += w * w * ((variance[t] as number[])[k] as number);
      roundingOfMean += w * w * ((rounding[t] as number[])[k] as number);
      addedToMean += w * ((added[t] as number[])[k] as number);
      slopeOfMean += w * ((slope[t] as number[])[k] as number);
    }
    common.x.push(test.x);
    common.level.push(middle[t] as number);
    common.testFactor.push((slopeOfMean * slopeOfMean) / test.weight ** 2);
    common.ownFactor.push(ownOfMean);
    common.added.push(addedToMean + roundingOfMean);
    common.spoilt.push(spoiltAsAWhole(test));
    // While one cylinder runs on, the common part does.
    common.renewed.push(renewedCylinders > 0 && renewedCylinders === test.segment.length);
    for (const [k, s] of test.segment.entries()) {
      const c = (segments[s]?.cylinder ?? 1) - 1;
      const part = own[c];
      if (part === undefined) continue;
      const w = ((share[t] as number[])[k] as number) / ((single[t] as number[])[k] as number) / total;
      part.x.push(test.x);
      part.test.push(t);
      part.heard.push(test.heard[k] as number);
      part.ruled.push(test.ruled[k] ?? null);
      part.spoilt.push(test.spoilt[k] as number);
      part.level.push(((z[t] as number[])[k] as number) - (middle[t] as number));
      part.testFactor.push(0);
      // The mean holds a part of the reading's own error, so that less of it is left beside the mean.
      const beside = (v: number, ofMean: number) => v * Math.max(0.05, 1 - w) ** 2 + Math.max(0, ofMean - w * w * v);
      part.ownFactor.push(beside((variance[t] as number[])[k] as number, ownOfMean));
      const rounded = beside((rounding[t] as number[])[k] as number, roundingOfMean);
      part.added.push(((added[t] as number[])[k] as number) + rounded);
      part.renewed.push((lastSegment[c] as number) >= 0 && lastSegment[c] !== s);
      lastSegment[c] = s;
    }
  }
  return { x: common.x, common, own };
}

/**
 * How likely a test was spoilt as a whole: what doubts all its cylinders doubts the least doubtful one too, and what doubts one
 * of them says nothing of the others. 0 only where a person takes every reading as it is.
 */
function spoiltAsAWhole({ spoilt }: TestObservation): number {
  const open = spoilt.filter((share) => share > 0);
  return open.length === 0 ? 0 : Math.min(...open);
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] extends readonly (infer V)[] ? V[] : T[K] };
type MutablePart = Mutable<Part>;
export type MutableOwnPart = Mutable<OwnPart>;

const emptyPart = (): MutablePart => ({
  x: [],
  level: [],
  testFactor: [],
  ownFactor: [],
  added: [],
  spoilt: [],
  renewed: [],
});

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/** Offsets add up to 0 over the cylinders' first baselines, or the common part could drift against all of them. */
function centre(offset: Float64Array, { segments, cylinders }: WearObservations): void {
  let sum = 0;
  const seen = new Set<number>();
  for (const [s, segment] of segments.entries()) {
    if (seen.has(segment.cylinder)) continue;
    seen.add(segment.cylinder);
    sum += offset[s] as number;
  }
  const shift = sum / Math.max(1, cylinders);
  for (let s = 0; s < offset.length; s++) offset[s] = (offset[s] as number) - shift;
}

/**
 * The level that each reading's error is reckoned from: the median of the cylinder's readings about it, for an error
 * that shrank and grew with the reading's own would weigh down what happens to read high.
 */
function smoothedLevels({ tests, cylinders, segments }: WearObservations): number[][] {
  const all = tests.map((test) => test.badness.map(() => 0));
  const series: { readonly t: number; readonly k: number; readonly s: number; readonly b: number }[][] = Array.from(
    { length: cylinders },
    () => [],
  );
  for (const [t, test] of tests.entries()) {
    for (const [k, s] of test.segment.entries()) {
      series[(segments[s]?.cylinder ?? 1) - 1]?.push({ t, k, s, b: test.badness[k] as number });
    }
  }
  for (const one of series) {
    for (const [i, { t, k, s, b }] of one.entries()) {
      const near: number[] = [b];
      for (const j of [i - 1, i + 1]) {
        const other = one[j];
        if (other !== undefined && other.s === s) near.push(other.b);
      }
      near.sort((p, q) => p - q);
      const middle =
        near.length % 2 === 1 ? near[(near.length - 1) / 2] : ((near[0] as number) + (near[1] as number)) / 2;
      (all[t] as number[])[k] = middle as number;
    }
  }
  return all;
}
