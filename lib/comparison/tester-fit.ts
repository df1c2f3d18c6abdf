import type { TesterCourse, TesterTest } from "../schema/comparison.ts";
import { inOneGo } from "../steps.ts";

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
  /**
   * The offsets without the courses of some places, in two rounds from the weights of the fit with all of them, which come
   * close enough.
   */
  readonly without: (left: (place: number) => boolean) => Float64Array;
}

export interface FitCourse extends Pick<TesterCourse, "unit" | "engine" | "rate" | "rateSd"> {
  readonly tests: readonly (Pick<TesterTest, "x" | "above" | "sd"> & { readonly instrument: number })[];
}

/** A course as the fit goes through it, some hundred times. */
interface Course {
  /** Ascending. */
  readonly instruments: readonly number[];
  /** By test; instruments by their place among those of the course. */
  readonly place: Int32Array;
  readonly x: Float64Array;
  readonly above: Float64Array;
  readonly sd: Float64Array;
  readonly ofRate: number;
  readonly prior: number;
  /** Of its tests, as the fit goes on. */
  readonly weights: Float64Array;
  /** Under these weights: their sum, their middle, and what is known of the rate about it. */
  total: number;
  middle: number;
  spread: number;
}

const tailFreedom = 4;
const mostRounds = 30;
const settled = 1e-6;

/** Courses with one instrument must be left out; `instruments`: how many there are, numbered from 0. */
export function* fitTesters(courses: readonly FitCourse[], instruments: number): Generator<void, TesterFit> {
  const all = courses.map(courseOf);
  yield;
  const offsets = yield* reweighted(all, instruments, mostRounds);
  const weights = all.map((course) => course.weights.slice());
  return {
    offsets,
    without: (left) => {
      const kept = all.filter((course, place) => {
        if (left(place)) return false;
        course.weights.set(weights[place] as Float64Array);
        return true;
      });
      return inOneGo(reweighted(kept, instruments, 2));
    },
  };
}

function* reweighted(courses: readonly Course[], instruments: number, rounds: number): Generator<void, Float64Array> {
  let offsets = solveOffsets(courses, instruments);
  for (let round = 0; round < rounds; round++) {
    for (const course of courses) reweight(course, offsets);
    const next = solveOffsets(courses, instruments);
    const moved = Math.max(...next.map((v, j) => Math.abs(v - (offsets[j] as number))));
    offsets = next;
    if (moved < settled) break;
    yield;
  }
  return offsets;
}

function courseOf({ tests, rate, rateSd }: FitCourse): Course {
  const instruments = [...new Set(tests.map((t) => t.instrument))].toSorted((a, b) => a - b);
  const sd = Float64Array.from(tests, (t) => t.sd);
  return {
    instruments,
    place: Int32Array.from(tests, (t) => instruments.indexOf(t.instrument)),
    x: Float64Array.from(tests, (t) => t.x),
    above: Float64Array.from(tests, (t) => t.above),
    sd,
    ofRate: rateSd ** -2,
    prior: rate * rateSd ** -2,
    weights: sd.map((one) => one ** -2),
    total: 0,
    middle: 0,
    spread: 0,
  };
}

/** Sums over a course, about its weighted middle, that its level and rate are solved from. */
function sum(course: Course): void {
  const { x, weights } = course;
  let [total, middle, spread] = [0, 0, course.ofRate];
  for (let t = 0; t < x.length; t++) {
    total += weights[t] as number;
    middle += (weights[t] as number) * (x[t] as number);
  }
  middle /= total;
  for (let t = 0; t < x.length; t++) spread += (weights[t] as number) * ((x[t] as number) - middle) ** 2;
  course.total = total;
  course.middle = middle;
  course.spread = spread;
}

/**
 * Adds what a course says of the offsets, once its level and rate are solved for: about the weighted middle these do not
 * depend on each other, and each is taken out by itself. `own`, `lever`, `value`: room for as many numbers as it has
 * instruments.
 */
function addPart(course: Course, to: Equations, { own, lever, value }: Room): void {
  sum(course);
  const { x, above, place, weights, instruments, total, middle, spread, prior } = course;
  const n = instruments.length;
  for (let j = 0; j < n; j++) own[j] = lever[j] = value[j] = 0;
  let [sumAbove, leverAbove] = [0, prior];
  for (let t = 0; t < x.length; t++) {
    const w = weights[t] as number;
    const j = place[t] as number;
    const arm = w * ((x[t] as number) - middle);
    own[j] = (own[j] as number) + w;
    lever[j] = (lever[j] as number) + arm;
    value[j] = (value[j] as number) + w * (above[t] as number);
    sumAbove += w * (above[t] as number);
    leverAbove += arm * (above[t] as number);
  }
  for (let j = 0; j < n; j++) {
    const [ownJ, leverJ] = [own[j] as number, lever[j] as number];
    const row = instruments[j] as number;
    to.right[row] =
      (to.right[row] as number) + ((value[j] as number) - (ownJ * sumAbove) / total - (leverJ * leverAbove) / spread);
    for (let k = 0; k < n; k++) {
      const taken = (ownJ * (own[k] as number)) / total + (leverJ * (lever[k] as number)) / spread;
      const at = row * to.n + (instruments[k] as number);
      to.normal[at] = (to.normal[at] as number) + ((j === k ? ownJ : 0) - taken);
    }
  }
}

interface Equations {
  readonly n: number;
  readonly normal: Float64Array;
  readonly right: Float64Array;
}

interface Room {
  readonly own: Float64Array;
  readonly lever: Float64Array;
  readonly value: Float64Array;
}

/** New weights by the course's residuals; its sums are those of the weights so far. */
function reweight(course: Course, offsets: Float64Array): void {
  const { x, above, sd, place, weights, instruments, total, middle, spread, prior } = course;
  const own = (t: number) => (above[t] as number) - (offsets[instruments[place[t] as number] as number] as number);
  let [level, rate] = [0, prior];
  for (let t = 0; t < x.length; t++) {
    level += ((weights[t] as number) * own(t)) / total;
    rate += (weights[t] as number) * ((x[t] as number) - middle) * own(t);
  }
  rate /= spread;
  for (let t = 0; t < x.length; t++) {
    const error = sd[t] as number;
    const residual = (own(t) - level - rate * ((x[t] as number) - middle)) / error;
    weights[t] = Math.min(1, (tailFreedom + 1) / (tailFreedom + residual * residual)) / (error * error);
  }
}

/**
 * Offsets that fit the courses under their weights. Instruments that nothing joins have no difference to tell: a ridge too
 * small to matter keeps the equations solvable, and whoever asks takes differences within what is joined only.
 */
function solveOffsets(courses: readonly Course[], instruments: number): Float64Array {
  const n = instruments;
  const [normal, right] = [new Float64Array(n * n), new Float64Array(n)];
  const room = { own: new Float64Array(n), lever: new Float64Array(n), value: new Float64Array(n) };
  for (const course of courses) addPart(course, { n, normal, right }, room);
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
