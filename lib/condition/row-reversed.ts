import type { SealedTest } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";
import { probabilityWords } from "../wording.ts";
import { nextSound } from "./common-part.ts";
import { type DoubtSheet, noteDoubt } from "./doubt-sheet.ts";
import { weightOf } from "./fault-probability.ts";
import { isSound, levelFromOthers, type MeasureSeries } from "./series.ts";

/** Of tests so many are written down from the wrong end, before any is looked at: judgement. */
const reversedShare = 0.002;
/** From this probability on it is told: hardly a test of a sound row may be. */
const told = 0.8;
/** Turned round, each reading must fit within so many standard deviations. */
const fits = 2.5;
/** As the early warning takes them, and heavier: what wears on its own lies off as well. */
const tailFreedom = 3;
const fewestCylinders = 4;
const fewestOthers = 2;
/** What is left of its weight: where a later test went back to the order, and of the last one. */
const returnedWeight = 0.1;
const unconfirmedWeight = 0.35;
const nothingOff: ReadonlySet<number> = new Set();

/**
 * Tests whose readings fit the engine's other tests when the cylinders are counted from the other end, and far better than
 * as they stand: the row was written in reverse. The probability is Bayes' rule over the two orders, for heavy-tailed errors about
 * what each cylinder's other tests let expect; what a test has in common is left out of both. It says nothing of an engine
 * whose cylinders are alike.
 */
export function noteReversedRows(sheet: DoubtSheet, series: MeasureSeries): void {
  const { tests, places, cylinders, measure } = series;
  if (cylinders.length < fewestCylinders) return;
  for (const [k, index] of tests.entries()) {
    const test = sheet.history.tests[index] as SealedTest;
    if (test.readings.length !== cylinders.length) continue;
    const looked = test.readings.flatMap(({ cylinder, value, referralSd }, r) => {
      const own = cylinders[cylinder - 1];
      const place = places[k]?.[r] as number;
      if (own === undefined || !isSound(sheet, own, place)) return [];
      const expected = levelFromOthers(sheet, own, place, fewestOthers, (other) => other === index);
      if (expected === null) return [];
      const error = sheet.errors[measure].own(Math.max(0, expected.level), test.instrument);
      return [{ value, level: expected.level, variance: error ** 2 * expected.varianceFactor + referralSd ** 2 }];
    });
    if (looked.length !== cylinders.length) continue;
    const values = looked.map(({ value }) => value);
    const [asWritten, turned] = [offBy(looked, values), offBy(looked, values.toReversed())];
    if (turned.some((z) => Math.abs(z) > fits)) continue;
    const odds = (reversedShare / (1 - reversedShare)) * Math.exp(logDensity(turned) - logDensity(asWritten));
    const probability = odds / (1 + odds);
    if (probability < told) continue;
    const isLast = nextSound(sheet, series, k, 1, nothingOff) === null;
    noteDoubt(sheet, index, {
      code: "row-reversed",
      cylinder: null,
      weight: weightOf(probability, isLast ? unconfirmedWeight : returnedWeight),
      words: `its readings fit the other tests from the last cylinder to the first (${probabilityWords(probability)} likely): cylinders written in reverse? Correct it`,
    });
  }
}

/** How far values lie off what was to be expected, the middle difference left out, in standard deviations. */
function offBy(
  looked: readonly { readonly level: number; readonly variance: number }[],
  values: readonly number[],
): readonly number[] {
  const off = looked.map(({ level }, i) => (values[i] as number) - level);
  const common = median(off);
  return looked.map(({ variance }, i) => ((off[i] as number) - common) / Math.sqrt(variance));
}

/** Of errors with Student's tails, but for what both orders share: a single cylinder that went astray turns nothing round. */
const logDensity = (z: readonly number[]): number =>
  z.reduce((sum, one) => sum - ((tailFreedom + 1) / 2) * Math.log(1 + one ** 2 / tailFreedom), 0);
