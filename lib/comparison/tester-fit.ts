import type { TesterCourse, TesterTest } from "../schema/comparison.ts";

/**
 * Offsets of instruments by a two-way fit: for test t of course e, read with instrument j,
 *
 *   above = level_e + rate_e · (x − middle) + offset_j + error_t
 *
 * Levels and offsets are free; the rate has a normal prior, what wear is expected to add, so that wear between two tests
 * is not taken for a difference of their instruments. Errors have the tests' own standard deviations and heavy tails: a
 * test r deviations out weighs min(1, 5/(4 + r²)) (Student t with 4 degrees of freedom by reweighting; Lange, Little and
 * Taylor, J. Am. Stat. Assoc. 84 (1989)), so that single faults of set-up move no offset. Only courses with two or more
 * instruments say anything of offsets, and those only of their differences: a common offset of all cannot be seen.
 */
export interface TesterFit {
  /** By instrument; known but for a number that those joined with each other have in common. */
  readonly offsets: Float64Array;
  /** By course and test. */
  readonly weights: readonly (readonly number[])[];
}

export interface FitCourse extends Pick<TesterCourse, "unit" | "engine" | "rate" | "rateSd"> {
  readonly tests: readonly (Pick<TesterTest, "x" | "above" | "sd"> & { readonly instrument: number })[];
}

/** What a course adds to the normal equations of the offsets, once its level and rate are solved for. */
interface FitPart {
  /** Of the course, ascending; `normal` and `right` by their place here. */
  readonly instruments: readonly number[];
  readonly normal: Float64Array;
  readonly right: Float64Array;
}

const tailFreedom = 4;
const mostRounds = 30;
const settled = 1e-6;

/**
 * Courses with one instrument must be left out; `instruments`: how many there are, numbered from 0. `from`: the fit of
 * these courses with some more, by their places there, to start from; two rounds then come close enough.
 */
export function fitTesters(
  courses: readonly FitCourse[],
  instruments: number,
  from?: { readonly fit: TesterFit; readonly places: readonly number[] },
): TesterFit {
  const weights = courses.map(({ tests }, i) =>
    from === undefined
      ? tests.map(({ sd }) => sd ** -2)
      : [...(from.fit.weights[from.places[i] as number] as number[])],
  );
  const solve = () =>
    solveOffsets(
      courses.map((course, i) => partOf(course, weights[i] as number[])),
      instruments,
    );
  let offsets = solve();
  for (let round = 0; round < (from === undefined ? mostRounds : 2); round++) {
    for (const [i, course] of courses.entries()) reweight(course, weights[i] as number[], offsets);
    const next = solve();
    const moved = Math.max(...next.map((v, j) => Math.abs(v - (offsets[j] as number))));
    offsets = next;
    if (moved < settled) break;
  }
  return { offsets, weights };
}

/** Sums over a course, about its weighted middle, that its level and rate are solved from. */
function sumsOf({ tests, rate, rateSd }: FitCourse, weights: readonly number[]) {
  let total = 0;
  let middle = 0;
  for (const [t, { x }] of tests.entries()) {
    total += weights[t] as number;
    middle += (weights[t] as number) * x;
  }
  middle /= total;
  let spread = rateSd ** -2;
  for (const [t, { x }] of tests.entries()) spread += (weights[t] as number) * (x - middle) ** 2;
  return { total, middle, spread, prior: rate * rateSd ** -2 };
}

/** About the weighted middle, level and rate do not depend on each other, and each is taken out by itself. */
function partOf(course: FitCourse, weights: readonly number[]): FitPart {
  const { total, middle, spread, prior } = sumsOf(course, weights);
  const instruments = [...new Set(course.tests.map((t) => t.instrument))].toSorted((a, b) => a - b);
  const n = instruments.length;
  const sum = new Float64Array(n);
  const lever = new Float64Array(n);
  const right = new Float64Array(n);
  let sumAbove = 0;
  let leverAbove = prior;
  for (const [t, { x, above, instrument }] of course.tests.entries()) {
    const w = weights[t] as number;
    const j = instruments.indexOf(instrument);
    sum[j] = (sum[j] as number) + w;
    lever[j] = (lever[j] as number) + w * (x - middle);
    right[j] = (right[j] as number) + w * above;
    sumAbove += w * above;
    leverAbove += w * (x - middle) * above;
  }
  const normal = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    for (let k = 0; k < n; k++) {
      const taken =
        ((sum[j] as number) * (sum[k] as number)) / total + ((lever[j] as number) * (lever[k] as number)) / spread;
      normal[j * n + k] = (j === k ? (sum[j] as number) : 0) - taken;
    }
    right[j] =
      (right[j] as number) - ((sum[j] as number) * sumAbove) / total - ((lever[j] as number) * leverAbove) / spread;
  }
  return { instruments, normal, right };
}

function reweight(course: FitCourse, weights: number[], offsets: Float64Array): void {
  const { total, middle, spread, prior } = sumsOf(course, weights);
  const own = course.tests.map(({ above, instrument }) => above - (offsets[instrument] as number));
  let level = 0;
  let rate = prior;
  for (const [t, { x }] of course.tests.entries()) {
    level += ((weights[t] as number) * (own[t] as number)) / total;
    rate += (weights[t] as number) * (x - middle) * (own[t] as number);
  }
  rate /= spread;
  for (const [t, { x, sd }] of course.tests.entries()) {
    const residual = ((own[t] as number) - level - rate * (x - middle)) / sd;
    weights[t] = Math.min(1, (tailFreedom + 1) / (tailFreedom + residual * residual)) / (sd * sd);
  }
}

/**
 * Offsets that fit the parts. Instruments that nothing joins have no difference to tell: a ridge too small to matter
 * keeps the equations solvable, and whoever asks takes differences within what is joined only.
 */
function solveOffsets(parts: readonly FitPart[], instruments: number): Float64Array {
  const n = instruments;
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  for (const part of parts) {
    const m = part.instruments.length;
    for (const [a, j] of part.instruments.entries()) {
      right[j] = (right[j] as number) + (part.right[a] as number);
      for (const [b, k] of part.instruments.entries()) {
        normal[j * n + k] = (normal[j * n + k] as number) + (part.normal[a * m + b] as number);
      }
    }
  }
  let largest = 0;
  for (let j = 0; j < n; j++) largest = Math.max(largest, normal[j * n + j] as number);
  for (let j = 0; j < n; j++) normal[j * n + j] = (normal[j * n + j] as number) + 1e-9 * (largest || 1);
  return solveSymmetric(normal, right, n);
}

/** Solves a positive definite system in place, by Cholesky's factor. */
function solveSymmetric(a: Float64Array, b: Float64Array, n: number): Float64Array {
  for (let j = 0; j < n; j++) {
    for (let i = j; i < n; i++) {
      let sum = a[i * n + j] as number;
      for (let k = 0; k < j; k++) sum -= (a[i * n + k] as number) * (a[j * n + k] as number);
      a[i * n + j] = i === j ? Math.sqrt(Math.max(sum, Number.MIN_VALUE)) : sum / (a[j * n + j] as number);
    }
  }
  for (let i = 0; i < n; i++) {
    let sum = b[i] as number;
    for (let k = 0; k < i; k++) sum -= (a[i * n + k] as number) * (b[k] as number);
    b[i] = sum / (a[i * n + i] as number);
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i] as number;
    for (let k = i + 1; k < n; k++) sum -= (a[k * n + i] as number) * (b[k] as number);
    b[i] = sum / (a[i * n + i] as number);
  }
  return b;
}
