/**
 * The local linear trend on the annual flow of the Nile at Aswan, 1871 to 1970: a level that wanders about a line whose
 * slope wanders too. A course of wear is this model with a slope that does not wander, which is also what is fitted to
 * this series: R's manual of the data says of its own fit (`StructTS`, type "trend") that the trend is constant, and that
 * fit is printed as variances of 1426.7 (level), 0.0 (slope) and 15047.3 (noise) where it is used in tutorials. Its search
 * ends a little short of the maximum, which is flat: 1752.77 and 14678.0, by generalised least squares on the full
 * covariance matrix in numpy and scipy. States and log-likelihood for variances of 1000, 10 and 15000 are recomputed from
 * another library (1e-9), whose log-likelihood counts (n − 2)/2 · log 2π here. Textbook: Durbin and Koopman (Time Series
 * Analysis by State Space Methods, 2012, sections 3.2.1 and 5.2; from memory).
 */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { followCourse } from "@/lib/projection/course.ts";
import { highest } from "@/lib/projection/search.ts";

const flows = readFileSync(new URL("./data/h_nile_filter.csv", import.meta.url), "utf8")
  .trim()
  .split("\n")
  .slice(1)
  .map((line) => Number(line.split(",")[1]));

interface Variances {
  readonly noise: number;
  readonly level: number;
  readonly slope: number;
}

interface Filtered {
  readonly level: number;
  readonly slope: number;
  /** Of the level, of both, of the slope. */
  readonly variance: readonly [number, number, number];
  readonly logLikelihood: number;
}

/** The textbook's recursions, with a state of level and slope now; begun with what the first two years say. */
function textbook({ noise, level, slope }: Variances, years: number): Filtered {
  const [first, second] = flows as [number, number];
  let [a, b] = [second, second - first];
  let [paa, pab, pbb] = [noise, noise, 2 * noise + level + slope];
  let logLikelihood = 0;
  for (const flow of flows.slice(2, years)) {
    a += b;
    [paa, pab, pbb] = [paa + 2 * pab + pbb + level, pab + pbb, pbb + slope];
    const f = paa + noise;
    const v = flow - a;
    logLikelihood -= 0.5 * (Math.log(2 * Math.PI * f) + (v * v) / f);
    a += (paa / f) * v;
    b += (pab / f) * v;
    [paa, pab, pbb] = [paa - paa ** 2 / f, pab - (paa * pab) / f, pbb - pab ** 2 / f];
  }
  return { level: a, slope: b, variance: [paa, pab, pbb], logLikelihood };
}

/** The app's course with a prior that says next to nothing, as the state of the textbook. */
function course({ noise, level }: Pick<Variances, "noise" | "level">, years: number): Filtered {
  const to = (n: number) =>
    followCourse(
      {
        clock: flows.slice(0, n).map((_, i) => i + 1),
        level: flows.slice(0, n),
        variance: flows.slice(0, n).map(() => noise),
        renewed: flows.slice(0, n).map(() => false),
      },
      {
        level: 0,
        levelSd: 1e6,
        rate: 0,
        rateSd: 1e6,
        wander: level,
        renewalSd: 0,
        renewsRate: false,
        tails: "normal",
      },
      null,
    );
  const { mean, covariance, logLikelihood } = to(years);
  const [c00, c01, c11] = [covariance[0] as number, covariance[1] as number, covariance[3] as number];
  return {
    level: (mean[0] as number) + years * (mean[1] as number),
    slope: mean[1] as number,
    variance: [c00 + 2 * years * c01 + years ** 2 * c11, c01 + years * c11, c11],
    logLikelihood: logLikelihood - to(2).logLikelihood - ((years - 2) / 2) * Math.log(2 * Math.PI),
  };
}

/** Log-likelihood by generalised least squares on the full covariance matrix, which knows of no recursion. */
function byLeastSquares({ noise, level, slope }: Variances): number {
  const n = flows.length;
  // Of a shock to the slope in year k the level of year t has t − k − 1.
  const bySlope = (i: number, j: number) =>
    Array.from({ length: Math.min(i, j) }, (_, k) => Math.max(0, i - k - 1) * Math.max(0, j - k - 1));
  const v = flows.map((_, i) =>
    flows.map(
      (_, j) => (i === j ? noise : 0) + level * Math.min(i, j) + slope * bySlope(i, j).reduce((s, one) => s + one, 0),
    ),
  );
  // Cholesky factor of v, by which line, slope and flows become independent.
  const columns = [flows.map(() => 1), flows.map((_, i) => i), [...flows]] as [number[], number[], number[]];
  let logDeterminant = 0;
  for (let j = 0; j < n; j++) {
    const pivot = Math.sqrt(v[j]![j]!);
    logDeterminant += 2 * Math.log(pivot);
    for (let i = j; i < n; i++) v[i]![j]! /= pivot;
    for (let k = j + 1; k < n; k++) for (let i = k; i < n; i++) v[i]![k]! -= v[i]![j]! * v[k]![j]!;
    for (const column of columns) {
      column[j]! /= pivot;
      for (let i = j + 1; i < n; i++) column[i]! -= v[i]![j]! * column[j]!;
    }
  }
  const [one, time, flow] = columns;
  const dot = (p: readonly number[], q: readonly number[]) => p.reduce((sum, value, i) => sum + value * q[i]!, 0);
  const [a, b, c] = [dot(one, one), dot(one, time), dot(time, time)];
  const determinant = a * c - b * b;
  const [p, q] = [dot(one, flow), dot(time, flow)];
  const explained = (c * p * p - 2 * b * p * q + a * q * q) / determinant;
  return (
    -0.5 * ((n - 2) * Math.log(2 * Math.PI) + logDeterminant + Math.log(determinant) + dot(flow, flow) - explained)
  );
}

/** The likeliest variances of noise and level by the app's search, and how likely they are. */
function likeliest(logLikelihood: (of: Pick<Variances, "noise" | "level">) => number) {
  const of = (at: readonly number[]) => ({
    noise: 15_000 * Math.exp(at[0] as number),
    level: 1500 * Math.exp(at[1] as number),
  });
  const found = highest((at) => logLikelihood(of(at)), [0, 0], [0.2, 0.2], 1e-4);
  return { ...of(found.at), logLikelihood: found.value };
}

describe("the textbook's filter and least squares, which the course is held against", () => {
  const variances = { noise: 15_000, level: 1000, slope: 10 };

  test.each<[number, number, number, readonly number[]]>([
    [2, 1160, 40, [15_000, 15_000, 31_010]],
    [3, 1001.637105, -78.51287903, [12_554.61363, 7500.815129, 8012.499728]],
    [10, 1188.174999, 11.21399666, [5960.548295, 896.7814961, 340.5855269]],
    [50, 835.6324874, -4.052702694, [4359.744529, 326.2850343, 133.6654136]],
    [100, 790.3053798, -7.405263205, [4359.417065, 326.1990654, 133.6428442]],
  ])("after %i years are where the other library is", (years, level, slope, variance) => {
    const told = textbook(variances, years);
    expect(told.level).toBeCloseTo(level, 5);
    expect(told.slope).toBeCloseTo(slope, 6);
    for (const [i, value] of variance.entries()) expect((told.variance[i] as number) / value).toBeCloseTo(1, 8);
  });

  test("give the log-likelihood that it gives", () => {
    expect(textbook(variances, 100).logLikelihood).toBeCloseTo(-631.5823258, 6);
    expect(byLeastSquares(variances)).toBeCloseTo(-631.5823258, 6);
  });
});

describe("a course is the local linear trend whose slope does not wander", () => {
  const variances = { noise: 15_047.3, level: 1426.7, slope: 0 };

  test.each([3, 10, 50, 100])("after %i years: level, slope, their variances and the likelihood", (years) => {
    const [told, expected] = [course(variances, years), textbook(variances, years)];
    expect(told.level).toBeCloseTo(expected.level, 3);
    expect(told.slope).toBeCloseTo(expected.slope, 3);
    for (const i of [0, 1, 2] as const) expect(told.variance[i] / expected.variance[i]).toBeCloseTo(1, 5);
    expect(told.logLikelihood).toBeCloseTo(expected.logLikelihood, 4);
  });

  test("the likelihood is that of least squares", () => {
    expect(course(variances, 100).logLikelihood).toBeCloseTo(byLeastSquares(variances), 4);
  });

  test("its likeliest variances are those found elsewhere, and R's are as likely but for a tenth", () => {
    const found = likeliest((of) => course(of, 100).logLikelihood);
    expect(found.noise / 14_678.0).toBeCloseTo(1, 2);
    expect(found.level / 1752.77).toBeCloseTo(1, 2);
    expect(found.logLikelihood).toBeCloseTo(-629.8728, 3);
    expect(found.logLikelihood - course(variances, 100).logLikelihood).toBeLessThan(0.1);
  });
});

test("a slope that may wander makes the series no likelier: the likelihood falls from 0 on", () => {
  const at = [0, 0.001, 0.01, 0.1, 1, 10, 100].map(
    (slope) => likeliest((of) => textbook({ ...of, slope }, 100).logLikelihood).logLikelihood,
  );
  expect(at[0]).toBeCloseTo(-629.8728, 3);
  for (const [i, value] of at.slice(1).entries()) expect(value).toBeLessThan(at[i] as number);
});
