import type { JudgedMeasure } from "../schema/words.ts";
import { median, medianAbsoluteDeviation, weightedMedian } from "../statistics/quantile.ts";
import { numberWords, percentWords } from "../wording.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { repeatability } from "./repeatability.ts";
import { isSound, levelFromOthers, type MeasureSeries, worseSign } from "./series.ts";

/** What one test's readings have in common, against what each cylinder should have read by its other tests. */
interface CommonPart {
  /** Median over cylinders, worse is positive; kPa or points. */
  readonly deviation: number;
  /** Median of the levels that the cylinders should have read. */
  readonly level: number;
  /** By repeatability, and by how well the other tests fix the levels. */
  readonly sd: number;
  /** Most cylinders deviate so, not half of them much and half not at all. */
  readonly together: boolean;
}

const fewestOthers = 3;
const zLimit = 3.5;
/** Deviations below this are within common repeatability, however little the other tests scatter. */
const floor: Readonly<Record<JudgedMeasure, (level: number) => number>> = {
  "leak-down": () => 5,
  "compression-dry": (level) => 0.05 * level,
};

const returnedWeight = 0.1;
const unconfirmedWeight = 0.35;

/** Tests on either side whose scatter is taken into account; also how far a flagged test can have misled others. */
const reach = 10;
const mostRounds = 3;

/**
 * Tests at which all cylinders lie off together, which is the test far more often than the engine: cold engine, shut
 * throttle, weak battery, leaking hose, regulator. A test counts as off when its common part is beyond 3.5 standard
 * deviations and beyond usual repeatability, most cylinders agree, and the tests before and after do not: lasting
 * worsening is wear, lasting improvement a question of its own. With no later test the doubt is milder and asks for one.
 *
 * Needs three other sound tests of each cylinder's life. A test found off is left out and its neighbours are looked at
 * again, so that two faults near each other do not hide one another.
 *
 * @param opensImprovement indices of tests that may open a lasting improvement; the last test is not doubted if it is one
 */
export function noteTestsAllOff(sheet: DoubtSheet, series: MeasureSeries, opensImprovement: ReadonlySet<number>): void {
  const { tests, measure } = series;
  const off = new Set<number>();
  const parts: (CommonPart | null)[] = tests.map((_, k) => commonPart(sheet, series, k, fewestOthers, off));
  let changed: number[] = tests.map((_, k) => k);
  for (let round = 0; round < mostRounds && changed.length > 0; round++) {
    const candidates = changed.filter((k) => isOff(sheet, series, parts, k, off));
    const found = candidates.filter((k) => strongest(parts, k, candidates));
    for (const k of found) {
      off.add(tests[k] as number);
      noteOff(sheet, series, k, parts[k] as CommonPart, opensImprovement);
    }
    changed = changed.filter((k) => !off.has(tests[k] as number) && found.some((f) => Math.abs(f - k) <= reach));
    for (const k of changed) parts[k] = commonPart(sheet, series, k, fewestOthers, off);
  }

  function noteOff(
    to: DoubtSheet,
    { cylinders }: MeasureSeries,
    k: number,
    part: CommonPart,
    improves: ReadonlySet<number>,
  ): void {
    const test = tests[k] as number;
    const last = nextSound(to, series, k, 1, off) === null;
    if (last && part.deviation < 0 && improves.has(test)) return;
    const who = cylinders.length === 1 ? "the cylinder reads" : "all cylinders read";
    const higher = part.deviation > 0 === (measure === "leak-down");
    const amount =
      measure === "leak-down"
        ? `${numberWords(Math.abs(part.deviation))} points`
        : percentWords((100 * Math.abs(part.deviation)) / part.level);
    const so = `${who} ${amount} ${higher ? "higher" : "lower"} than the other tests foretell`;
    noteDoubt(to, test, {
      code: "all-cylinders-off",
      cylinder: null,
      weight: last ? unconfirmedWeight : returnedWeight,
      words: last
        ? `${so}: the test more likely than the engine; test again`
        : `${so}, and the next test was back: hardly used`,
    });
  }
}

/** Of tests near each other that lie off, the furthest is taken out first: it may be what makes the others look off. */
function strongest(parts: readonly (CommonPart | null)[], k: number, among: readonly number[]): boolean {
  const z = (i: number) => Math.abs((parts[i]?.deviation ?? 0) / (parts[i]?.sd ?? 1));
  return among.every((i) => i === k || Math.abs(i - k) > reach / 2 || z(i) < z(k) || (z(i) === z(k) && i > k));
}

function isOff(
  sheet: DoubtSheet,
  series: MeasureSeries,
  parts: readonly (CommonPart | null)[],
  k: number,
  off: ReadonlySet<number>,
): boolean {
  const part = parts[k];
  if (!part?.together) return false;
  const size = Math.abs(part.deviation);
  if (size <= floor[series.measure](part.level) || size <= zLimit * part.sd) return false;
  const near = parts.filter((p, i) => p !== null && i !== k && Math.abs(i - k) <= reach);
  const scatter = near.length < 4 ? 0 : medianAbsoluteDeviation(near.map((p) => p?.deviation ?? 0));
  if (size <= zLimit * scatter) return false;
  // Both neighbours must be back on the line that leaves this test and them out.
  const without = new Set([...off, series.tests[k] as number]);
  return ([-1, 1] as const).every((step) => {
    const next = nextSound(sheet, series, k, step, off);
    const beside = next === null ? null : commonPart(sheet, series, next, 2, without);
    return beside === null || Math.sign(part.deviation) * beside.deviation < size / 2;
  });
}

/** The nearest test of the measure in one direction that has a sound reading in a life that test k has one in. */
function nextSound(
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

/** null: too few other tests, or too few of the engine's cylinders measured to speak of all. */
function commonPart(
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
      expected.varianceFactor * expectedVariance(measure, expected.level, readings.length) + reading.referralSd ** 2;
  }
  const n = deviations.length;
  if (n < needed) return null;
  const deviation = weightedMedian(deviations, weights);
  const agreeing = deviations.filter((d) => Math.sign(deviation) * d >= 0.4 * Math.abs(deviation)).length;
  return { deviation, level: median(levels), sd: Math.sqrt(variance / n), together: agreeing >= 0.75 * n };
}

/** Of the median of `n` readings of one test: the shared error whole, the own ones as far as a median averages them. */
function expectedVariance(measure: JudgedMeasure, level: number, n: number): number {
  const { shared, own } = repeatability(measure, level);
  return shared ** 2 + (own ** 2 * Math.PI) / 2 / Math.max(n, Math.PI / 2);
}

/** Leakage that no used engine has, and what must have stood there before for it to be too good. */
const perfectPercent = 3;
const wellAbovePercent = 8;
const nothingOff: ReadonlySet<number> = new Set();

const readingsAt = (sheet: DoubtSheet, test: number): number[] =>
  sheet.history.tests[test]?.readings.map((reading) => reading.value) ?? [];

/**
 * Leak-down tests at which every cylinder of an engine that leaked well before seals perfectly, and neither the test
 * before nor the next does: the valve core left in the hose, or no air at all.
 */
export function noteTooGood(sheet: DoubtSheet, series: MeasureSeries): void {
  for (const [k, index] of series.tests.entries()) {
    const readings = sheet.history.tests[index]?.readings ?? [];
    if (readings.some((reading) => reading.value > perfectPercent)) continue;
    const levels: number[] = [];
    for (const [r, reading] of readings.entries()) {
      const own = series.cylinders[reading.cylinder - 1];
      if (own === undefined) continue;
      const expected = levelFromOthers(sheet, own, series.places[k]?.[r] as number, 1, () => false);
      if (expected !== null) levels.push(expected.level);
    }
    if (levels.length < Math.max(1, readings.length / 2) || median(levels) < wellAbovePercent) continue;
    const halfway = (perfectPercent + median(levels)) / 2;
    const borneOut = ([-1, 1] as const).some((step) => {
      const beside = nextSound(sheet, series, k, step, nothingOff);
      const values = beside === null ? [] : readingsAt(sheet, series.tests[beside] as number);
      return values.length > 0 && median(values) < halfway;
    });
    if (borneOut) continue;
    noteDoubt(sheet, index, {
      code: "too-good",
      cylinder: null,
      weight: 0.1,
      words: `all cylinders at 0 to ${perfectPercent} % where about ${percentWords(median(levels))} was to be expected: valve core left in the hose? Test again`,
    });
  }
}
