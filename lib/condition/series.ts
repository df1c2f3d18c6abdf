import type { JudgedMeasure } from "../schema/words.ts";
import type { EngineHistory, SealedTest } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";
import { theilSenLine } from "../statistics/theil-sen.ts";
import type { DoubtSheet } from "./doubt-sheet.ts";
import { givesBaseline } from "./lives.ts";

/** +1 where a higher reading is worse (leakage), −1 where a lower one is (compression). */
export const worseSign = { "leak-down": 1, "compression-dry": -1 } as const satisfies Record<JudgedMeasure, 1 | -1>;

/** From this weight on a reading may be leaned on to judge others by. */
const leanWeight = 0.5;

/** Readings of one cylinder in one measure, in order; the arrays run in parallel. */
export interface CylinderSeries {
  readonly cylinder: number;
  /** Index into `history.tests`, and into the readings of that test. */
  readonly test: number[];
  readonly reading: number[];
  readonly x: number[];
  readonly value: number[];
  /** Counts up at each repair that gave the cylinder a new baseline. */
  readonly life: number[];
}

export interface MeasureSeries {
  readonly measure: JudgedMeasure;
  /** Indices into `history.tests`, ascending. */
  readonly tests: readonly number[];
  /** For each of `tests` the place of its readings in their cylinder's series. */
  readonly places: readonly (readonly number[])[];
  /** By cylinder, from 1: index 0 is cylinder 1. */
  readonly cylinders: readonly CylinderSeries[];
}

/**
 * Whether a test was made after a repair: one of an earlier day at the same meter found what the repair then cured; of the
 * same day, sealing has settled it (lib/sealing/repair-day.ts).
 */
export const madeAfter = (
  test: Pick<SealedTest, "x" | "date" | "repairSameDay">,
  repair: { readonly x: number; readonly date: string },
): boolean => {
  if (test.x !== repair.x) return test.x > repair.x;
  return test.date === repair.date ? test.repairSameDay !== "before" : test.date > repair.date;
};

export function measureSeries(history: EngineHistory, measure: JudgedMeasure): MeasureSeries {
  const baselines = history.repairs.filter(givesBaseline);
  const cylinders = Array.from({ length: history.model.cylinders }, (_, i) => ({
    cylinder: i + 1,
    test: [] as number[],
    reading: [] as number[],
    x: [] as number[],
    value: [] as number[],
    life: [] as number[],
  }));
  const lifeNow = new Int32Array(cylinders.length);
  const tests: number[] = [];
  const places: number[][] = [];
  let repaired = 0;
  for (const [t, test] of history.tests.entries()) {
    for (let next = baselines[repaired]; next !== undefined && madeAfter(test, next); next = baselines[++repaired]) {
      for (const c of next.cylinders) lifeNow[c - 1] = (lifeNow[c - 1] ?? 0) + 1;
    }
    if (test.measure !== measure) continue;
    tests.push(t);
    places.push(
      test.readings.map(({ cylinder, value }, r) => {
        const series = cylinders[cylinder - 1];
        if (series === undefined) throw new RangeError(`${history.engine} has no cylinder ${cylinder}`);
        series.test.push(t);
        series.reading.push(r);
        series.x.push(test.x);
        series.value.push(value);
        return series.life.push(lifeNow[cylinder - 1] as number) - 1;
      }),
    );
  }
  return { measure, tests, places, cylinders };
}

/** Whether the reading at `place` of the series may be leaned on. */
export function isSound(sheet: DoubtSheet, series: CylinderSeries, place: number): boolean {
  return (sheet.weights[series.test[place] as number]?.[series.reading[place] as number] as number) >= leanWeight;
}

export interface LevelFromOthers {
  readonly level: number;
  /** Readings that it rests on. */
  readonly others: number;
  /** Variance of (reading − level) in units of one reading's variance, were the line fitted by least squares. */
  readonly varianceFactor: number;
}

const mostOthers = 10;

/**
 * What the cylinder should have read at `place`, by the robust line through the nearest sound readings of the same life,
 * five on either side or, at an end, up to ten in all; the reading itself and tests that `leaveOut` names are not among
 * them. null: fewer than `fewest`. The window keeps the work in proportion to the tests, and lets wear speed up slowly.
 */
export function levelFromOthers(
  sheet: DoubtSheet,
  series: CylinderSeries,
  place: number,
  fewest: number,
  leaveOut: (test: number) => boolean,
): LevelFromOthers | null {
  const before: number[] = [];
  const after: number[] = [];
  const life = series.life[place];
  const counts = (p: number) => isSound(sheet, series, p) && !leaveOut(series.test[p] as number);
  for (let p = place - 1; p >= 0 && series.life[p] === life && before.length < mostOthers; p--) {
    if (counts(p)) before.push(p);
  }
  for (let p = place + 1; p < series.x.length && series.life[p] === life && after.length < mostOthers; p++) {
    if (counts(p)) after.push(p);
  }
  const fromBefore = Math.min(before.length, Math.max(mostOthers / 2, mostOthers - after.length));
  const fromAfter = Math.min(after.length, mostOthers - fromBefore);
  const n = fromBefore + fromAfter;
  if (n < fewest) return null;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const p = (i < fromBefore ? before[fromBefore - 1 - i] : after[i - fromBefore]) as number;
    x[i] = series.x[p] as number;
    y[i] = series.value[p] as number;
  }
  const at = series.x[place] as number;
  let mean = 0;
  for (let i = 0; i < n; i++) mean += (x[i] as number) / n;
  let squares = 0;
  for (let i = 0; i < n; i++) squares += ((x[i] as number) - mean) ** 2;
  const line = theilSenLine(x, y);
  return {
    level: line === null ? median(y) : line.intercept + line.slope * at,
    others: n,
    varianceFactor: 1 + 1 / n + (squares > 0 ? (at - mean) ** 2 / squares : 0),
  };
}
