import type { JudgedMeasure } from "../schema/words.ts";
import type { SealedTest } from "../sealing/types.ts";
import { median, medianAbsoluteDeviation } from "../statistics/quantile.ts";
import { numberWords, percentWords } from "../wording.ts";
import { type CommonPart, commonPart, middleSeries, nextSound } from "./common-part.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { type Deviation, faultProbability, weightOf } from "./fault-probability.ts";
import { type OffTest, probableFault } from "./probable-fault.ts";
import { atError, usualErrors } from "./reading-errors.ts";
import { levelFromOthers, type MeasureSeries, measureSeries } from "./series.ts";

export const fewestOthers = 3;
export const zLimit = 3.5;
/** Deviations below this are within common repeatability, however little the other tests scatter. */
const usualFloor: Readonly<Record<JudgedMeasure, (level: number) => number>> = {
  "leak-down": () => 5,
  "compression-dry": (level) => 0.05 * level,
};
/** The same where the fleet's tests are known to repeat better. */
const floorAt = ({ errors }: DoubtSheet, measure: JudgedMeasure, level: number): number =>
  atError(usualFloor[measure](level), {
    is: errors[measure].shared(level),
    usual: usualErrors[measure].shared(level),
  });

/** Of whole tests so many are spoilt by their set-up, before any is looked at: judgement. */
export const spoiltShare = 0.05;
/** What is left of the weight of a test that surely lies off: where the next was back, and where there is no next. */
export const returnedWeight = 0.1;
export const unconfirmedWeight = 0.35;
/** Below this a test is told as hardly used. */
const hardlyUsed = 0.3;

/** Tests on either side whose scatter is taken into account; also how far a flagged test can have misled others. */
const reach = 10;
const mostRounds = 3;

/**
 * Tests at which all cylinders lie off together, which is the test far more often than the engine: cold engine, shut
 * throttle, weak battery, leaking hose, regulator. A test counts as off when its common part is beyond 3.5 standard
 * deviations and beyond usual repeatability, most cylinders agree, and the tests before and after do not: lasting
 * worsening is wear, lasting improvement a question of its own. With no later test the doubt is milder and asks for one.
 * Both measures of one day may bear each other out where neither is beyond the limit by itself (borneOutBy).
 * What a test weighs follows the probability that it was spoilt (lib/condition/fault-probability.ts): one that lies just
 * beyond the limit keeps about half.
 *
 * Needs three other sound tests of each cylinder's life. A test found off is left out and its neighbours are looked at
 * again, so that two faults near each other do not hide one another.
 *
 * @param opensImprovement indices of tests that may open a lasting improvement; the last test is not doubted if it is one
 */
export function noteTestsAllOff(sheet: DoubtSheet, series: MeasureSeries, opensImprovement: ReadonlySet<number>): void {
  const { tests, measure } = series;
  const off = new Set<number>();
  // Of a test made with an instrument that is known to read off it is known already why its cylinders lie off together.
  const isExplained = (k: number) => sheet.doubts[tests[k] as number]?.some(({ code }) => code === "instrument-off");
  const screened = screenedDeviations(sheet, series);
  const parts: (CommonPart | null)[] = tests.map(() => null);
  let changed = tests.flatMap((_, k) => (worthALook(screened[k]) && !isExplained(k) ? [k] : []));
  for (let round = 0; round < mostRounds && changed.length > 0; round++) {
    for (const k of changed) parts[k] = commonPart(sheet, series, k, fewestOthers, off);
    const candidates = changed.filter((k) => isOff(sheet, series, parts, k, off) && !isScatter(parts, screened, k));
    const found = candidates.filter((k) => strongest(parts, k, candidates));
    for (const k of found) {
      off.add(tests[k] as number);
      noteOff(sheet, series, k, parts[k] as CommonPart, opensImprovement);
    }
    changed = changed.filter((k) => !off.has(tests[k] as number) && found.some((f) => Math.abs(f - k) <= reach));
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
    // No engine doubles its compression: that is no improvement, whatever it is.
    const isPossible = -part.deviation < part.level;
    if (last && part.deviation < 0 && isPossible && improves.has(test)) return;
    const who = cylinders.length === 1 ? "the cylinder reads" : "all cylinders read";
    const higher = part.deviation > 0 === (measure === "leak-down");
    const amount =
      measure === "leak-down"
        ? `${numberWords(Math.abs(part.deviation))} points`
        : percentWords((100 * Math.abs(part.deviation)) / part.level);
    const so = `${who} ${amount} ${higher ? "higher" : "lower"} than the other tests foretell`;
    const named = probableFault(offTestOf(to, series, k, off));
    const probability = spoiltProbability(to, series, k, part);
    // The other measure of the day bears it out as the next test would.
    const isBorneOut = borneOutBy(to, series, k, part) !== null;
    const weight = weightOf(probability, last && !isBorneOut ? unconfirmedWeight : returnedWeight);
    noteDoubt(to, test, {
      code: "all-cylinders-off",
      cylinder: null,
      weight,
      words: last
        ? `${so}; ${named}: the test more likely than the engine; test again`
        : `${so}, and the next test was back; ${named}: ${weight < hardlyUsed ? "hardly used" : "counts less"}`,
    });
  }
}

const nothingOff: ReadonlySet<number> = new Set();

/** The other measure, and how far its test of the same day lies off; null: there is none, or nothing to tell it by. */
function besideOf(
  { history, ...sheet }: DoubtSheet,
  { measure, tests }: MeasureSeries,
  k: number,
): { readonly other: MeasureSeries; readonly part: CommonPart | null } {
  const date = history.tests[tests[k] as number]?.date;
  const other = measureSeries(history, measure === "leak-down" ? "compression-dry" : "leak-down");
  const beside = other.tests.findIndex((t) => history.tests[t]?.date === date);
  return { other, part: beside < 0 ? null : commonPart({ history, ...sheet }, other, beside, 2, nothingOff) };
}

/** The test with what its cylinders should have read, and the other measure of the same day. */
export function offTestOf(sheet: DoubtSheet, series: MeasureSeries, k: number, off: ReadonlySet<number>): OffTest {
  const { measure, tests, places, cylinders } = series;
  const test = sheet.history.tests[tests[k] as number] as SealedTest;
  const { other, part } = besideOf(sheet, series, k);
  const readings = test.readings.flatMap(({ cylinder, value, order }, r) => {
    const own = cylinders[cylinder - 1];
    const place = places[k]?.[r] as number;
    const expected =
      own === undefined ? null : levelFromOthers(sheet, own, place, 1, (t) => off.has(t) || t === tests[k]);
    if (expected === null) return [];
    const leaks = measure === "leak-down" ? [] : (other.cylinders[cylinder - 1]?.value ?? []);
    return [{ value, expected: expected.level, order, usualLeakage: leaks.length === 0 ? null : median(leaks) }];
  });
  return {
    test,
    measure,
    readings,
    referenceRpm: sheet.history.model.compression?.referenceRpm ?? null,
    errors: sheet.errors,
    otherMeasure:
      part === null ? null : other.measure === "leak-down" ? part.deviation : (100 * part.deviation) / part.level,
  };
}

/** A test's middle reading against the line through the other tests' middle readings, in units of the least that counts. */
type Screened = { readonly deviation: number; readonly least: number } | null;

/** null: too few like tests to tell from; then the cylinders have to. */
function screenedDeviations(sheet: DoubtSheet, series: MeasureSeries): readonly Screened[] {
  const middle = middleSeries(sheet, series);
  return middle.value.map((value, k) => {
    const expected = levelFromOthers(sheet, middle, k, fewestOthers, () => false);
    if (expected === null) return null;
    const least = Math.max(
      floorAt(sheet, series.measure, expected.level),
      zLimit * sheet.errors[series.measure].shared(expected.level),
    );
    return { deviation: value - expected.level, least };
  });
}

/** Half of the least deviation that could count: what lies below need not be judged cylinder by cylinder. */
const worthALook = (screened: Screened | undefined): boolean =>
  !screened || Math.abs(screened.deviation) > 0.5 * screened.least;

/** No further off than 3.5 times what the tests around usually are: an engine whose tests scatter widely. */
function isScatter(parts: readonly (CommonPart | null)[], screened: readonly Screened[], k: number): boolean {
  const near: number[] = [];
  for (let i = Math.max(0, k - reach); i <= k + reach; i++) {
    const other = screened[i];
    if (i !== k && other) near.push(other.deviation);
  }
  return near.length >= 4 && Math.abs(parts[k]?.deviation ?? 0) <= zLimit * medianAbsoluteDeviation(near);
}

/** Of tests near each other that lie off, the furthest is taken out first: it may be what makes the others look off. */
function strongest(parts: readonly (CommonPart | null)[], k: number, among: readonly number[]): boolean {
  const z = (i: number) => Math.abs((parts[i]?.deviation ?? 0) / (parts[i]?.sd ?? 1));
  return among.every((i) => i === k || Math.abs(i - k) > reach / 2 || z(i) < z(k) || (z(i) === z(k) && i > k));
}

/** Both measures of one day must lie off by so many standard deviations each: by chance as rare as one beyond the limit. */
const eachBeyond = 2;

/**
 * The other measure of the day, where it bears a test out that may lie off: both read worse by more than they usually err. A
 * cold engine leaks more and compresses less at once, and each may hide among what tests repeat to. null: it does not.
 */
function borneOutBy(sheet: DoubtSheet, series: MeasureSeries, k: number, part: CommonPart): Deviation | null {
  if (part.deviation < eachBeyond * part.sd) return null;
  const { other, part: beside } = besideOf(sheet, series, k);
  if (beside === null || !beside.together || beside.deviation < eachBeyond * beside.sd) return null;
  return { measure: other.measure, size: beside.deviation, sd: beside.sd, level: beside.level };
}

/** Beyond the limit by itself, or borne out. */
const isFar = (sheet: DoubtSheet, series: MeasureSeries, k: number, part: CommonPart): boolean =>
  Math.abs(part.deviation) > zLimit * part.sd || borneOutBy(sheet, series, k, part) !== null;

/** How likely the test was spoilt: by itself, and where the other measure of the day bears it out by both. */
function spoiltProbability(sheet: DoubtSheet, series: MeasureSeries, k: number, part: CommonPart): number {
  const { deviation: size, sd, level } = part;
  const own = faultProbability({ measure: series.measure, size, sd, level }, spoiltShare);
  const other = borneOutBy(sheet, series, k, part);
  return other === null ? own : faultProbability(other, own);
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
  if (size <= floorAt(sheet, series.measure, part.level) || !isFar(sheet, series, k, part)) return false;
  // It lies off by the other tests without a neighbour of it, too: else that one is what makes it look off.
  const isOffWithout = ([-1, 1] as const).every((step) => {
    const next = nextSound(sheet, series, k, step, off);
    const rest =
      next === null ? null : commonPart(sheet, series, k, 2, new Set([...off, series.tests[next] as number]));
    return rest === null || Math.sign(part.deviation) * rest.deviation > size / 2;
  });
  if (!isOffWithout) return false;
  // Both neighbours must be back on the line that leaves this test and them out.
  const without = new Set([...off, series.tests[k] as number]);
  return ([-1, 1] as const).every((step) => {
    const next = nextSound(sheet, series, k, step, off);
    const beside = next === null ? null : commonPart(sheet, series, next, 2, without);
    return beside === null || Math.sign(part.deviation) * beside.deviation < size / 2;
  });
}
