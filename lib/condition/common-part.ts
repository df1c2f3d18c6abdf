import type { JudgedMeasure } from "../schema/words.ts";
import { median, weightedMedian } from "../statistics/quantile.ts";
import type { DoubtSheet } from "./doubt-sheet.ts";
import { type CylinderSeries, isSound, levelFromOthers, type MeasureSeries, worseSign } from "./series.ts";

/** What one test's readings have in common, against what each cylinder should have read by its other tests. */
export interface CommonPart {
  /** Median over cylinders, worse is positive; kPa or points. */
  readonly deviation: number;
  /** Median of the levels that the cylinders should have read. */
  readonly level: number;
  /** By repeatability, and by how well the other tests fix the levels. */
  readonly sd: number;
  /** Most cylinders deviate so, not half of them much and half not at all. */
  readonly together: boolean;
}

/** null: too few other tests, or too few of the engine's cylinders measured to speak of all. */
export function commonPart(
  sheet: DoubtSheet,
  { measure, tests, places, cylinders }: MeasureSeries,
  k: number,
  fewest: number,
  off: ReadonlySet<number>,
): CommonPart | null {
  const index = tests[k] as number;
  const readings = sheet.history.tests[index]?.readings ?? [];
  const needed = Math.max(Math.min(2, cylinders.length), Math.ceil(cylinders.length / 2));
  if (readings.length < needed) return null;
  const deviations: number[] = [];
  const weights: number[] = [];
  const levels: number[] = [];
  let variance = 0;
  const leaveOut = (test: number) => off.has(test);
  for (const [r, reading] of readings.entries()) {
    const weight = sheet.weights[index]?.[r] as number;
    const series = cylinders[reading.cylinder - 1];
    if (weight <= 0 || series === undefined) continue;
    const expected = levelFromOthers(sheet, series, places[k]?.[r] as number, fewest, leaveOut);
    if (expected === null) continue;
    deviations.push(worseSign[measure] * (reading.value - expected.level));
    weights.push(weight);
    levels.push(expected.level);
    variance +=
      expected.varianceFactor * expectedVariance(sheet, index, measure, expected.level) + reading.referralSd ** 2;
  }
  const n = deviations.length;
  if (n < needed) return null;
  const deviation = weightedMedian(deviations, weights);
  const agreeing = deviations.filter((d) => Math.sign(deviation) * d >= 0.4 * Math.abs(deviation)).length;
  return { deviation, level: median(levels), sd: Math.sqrt(variance / n), together: agreeing >= 0.75 * n };
}

/** Of the median of the readings of one test: the shared error whole, the own ones as far as a median averages them. */
function expectedVariance(
  { history, errors }: DoubtSheet,
  index: number,
  measure: JudgedMeasure,
  level: number,
): number {
  const test = history.tests[index];
  const own = errors[measure].own(level, test?.instrument ?? null);
  return (
    errors[measure].shared(level) ** 2 + (own ** 2 * Math.PI) / 2 / Math.max(test?.readings.length ?? 0, Math.PI / 2)
  );
}

/** The nearest test of the measure in one direction that has a sound reading in a life that test k has one in. */
export function nextSound(
  sheet: DoubtSheet,
  { tests, places, cylinders }: MeasureSeries,
  k: number,
  step: 1 | -1,
  off: ReadonlySet<number>,
): number | null {
  const lives = new Map<number, number | undefined>();
  for (const [r, place] of (places[k] as readonly number[]).entries()) {
    const c = sheet.history.tests[tests[k] as number]?.readings[r]?.cylinder as number;
    lives.set(c, cylinders[c - 1]?.life[place]);
  }
  for (let other = k + step; other >= 0 && other < tests.length; other += step) {
    if (off.has(tests[other] as number)) continue;
    const readings = sheet.history.tests[tests[other] as number]?.readings ?? [];
    const shares = readings.some(({ cylinder }, r) => {
      const series = cylinders[cylinder - 1];
      const place = places[other]?.[r] as number;
      return series !== undefined && isSound(sheet, series, place) && lives.get(cylinder) === series.life[place];
    });
    if (shares) return other;
  }
  return null;
}

/**
 * The middle readings of the tests as one series, to tell cheaply which tests are worth judging cylinder by cylinder. A
 * new life starts wherever the cylinders that were measured, or one of their lives, differ from the test before.
 */
export function middleSeries({ history }: DoubtSheet, { tests, places, cylinders }: MeasureSeries): CylinderSeries {
  const middle = {
    cylinder: 0,
    test: [...tests],
    reading: tests.map(() => 0),
    x: [] as number[],
    value: [] as number[],
    life: [] as number[],
  };
  let life = 0;
  let last: number[] = [];
  for (const [k, t] of tests.entries()) {
    const readings = history.tests[t]?.readings ?? [];
    const state: number[] = [];
    for (const [r, { cylinder }] of readings.entries()) {
      state.push(cylinder, cylinders[cylinder - 1]?.life[places[k]?.[r] as number] as number);
    }
    if (state.length !== last.length || state.some((v, i) => v !== last[i])) life++;
    last = state;
    middle.x.push(history.tests[t]?.x as number);
    middle.value.push(readings.length === 0 ? Number.NaN : median(readings.map((reading) => reading.value)));
    middle.life.push(life);
  }
  return middle;
}
