import type { JudgedMeasure } from "../schema/words.ts";
import type { SealedTest } from "../sealing/types.ts";
import { dateWords, listWords, numberWords } from "../wording.ts";
import type { DoubtSheet } from "./doubt-sheet.ts";
import { isExplained, smallestStep } from "./improvements.ts";
import { isAccepted } from "./judgement-of.ts";
import { type CylinderSeries, isSound, type MeasureSeries, worseSign } from "./series.ts";
import type { Contradiction } from "./types.ts";

/** The last reading must lie this many standard deviations of repeatability and referral from the one before. */
const zLimit = 4;

interface Pair {
  readonly cylinder: number;
  /** Indices into `history.tests`. */
  readonly before: number;
  readonly last: number;
  readonly was: number;
  readonly is: number;
}

/**
 * Last tests that take back, of one or more cylinders, what the test before them alone had found, with no repair on file
 * that explains it: 7, 28, then 10 % of leakage. A particle may have sat under the valve at the one, or the other was not
 * made right; each stands alone, so a person has to test again. Another good test settles it and the entry goes.
 *
 * The figures are those of an improvement that nobody explained (at least 8 points and 35 % of leakage or 8 % of
 * compression, four standard deviations), of which this is the case where the worse level was seen only once; engineering
 * judgement, no source.
 */
export function findContradictions(sheet: DoubtSheet, series: MeasureSeries): readonly Contradiction[] {
  // Of the same two tests, so that one date holds for all of an entry's cylinders.
  const byTests = new Map<string, Pair[]>();
  for (const cylinder of series.cylinders) {
    const pair = takenBack(sheet, series.measure, cylinder);
    if (pair === null) continue;
    const tests = `${pair.before} ${pair.last}`;
    byTests.set(tests, [...(byTests.get(tests) ?? []), pair]);
  }
  return [...byTests.values()].map((pairs) => contradictionOf(sheet, series.measure, pairs));
}

function takenBack(sheet: DoubtSheet, measure: JudgedMeasure, series: CylinderSeries): Pair | null {
  const life = series.life.at(-1);
  const places = series.x.map((_, place) => place);
  const sound = places.filter((place) => series.life[place] === life && isSound(sheet, series, place));
  const [earlier, before, last] = sound.slice(-3);
  // A later reading that is not relied on asks for a repeat by itself.
  if (earlier === undefined || before === undefined || last === undefined || last !== series.x.length - 1) return null;
  const value = (place: number) => series.value[place] as number;
  const sign = worseSign[measure];
  const gain = sign * (value(before) - value(last));
  if (gain < smallestStep(measure, value(before)) || gain <= zLimit * deviation(sheet, measure, series, before, last)) {
    return null;
  }
  // Where the one before that was as bad, the improvement is a step of its own (lib/condition/improvements.ts).
  if (sign * (value(before) - value(earlier)) < gain / 2) return null;
  const { tests } = sheet.history;
  const [testBefore, testLast] = [tests[series.test[before] as number], tests[series.test[last] as number]];
  if (testBefore === undefined || testLast === undefined || testBefore.date === testLast.date) return null;
  // A person looked at it and takes the last one as it is.
  if (isAccepted(testLast, series.cylinder)) return null;
  // Also a repair since: it has settled what was asked.
  if (isExplained(sheet, series.cylinder, testBefore, { ...testLast, x: Number.POSITIVE_INFINITY, date: "9999-12-31" }))
    return null;
  return {
    cylinder: series.cylinder,
    before: series.test[before] as number,
    last: series.test[last] as number,
    was: value(before),
    is: value(last),
  };
}

/** Standard deviation of the difference of two readings of one cylinder. */
function deviation(
  { history, errors }: DoubtSheet,
  measure: JudgedMeasure,
  series: CylinderSeries,
  ...places: readonly number[]
): number {
  const variance = places.map((place) => {
    const test = history.tests[series.test[place] as number];
    const referral = test?.readings[series.reading[place] as number]?.referralSd;
    const level = series.value[place] as number;
    const [shared, own] = [errors[measure].shared(level), errors[measure].own(level, test?.instrument ?? null)];
    return shared ** 2 + own ** 2 + (referral ?? 0) ** 2;
  });
  return Math.sqrt(variance.reduce((sum, v) => sum + v, 0));
}

function contradictionOf({ history }: DoubtSheet, measure: JudgedMeasure, pairs: readonly Pair[]): Contradiction {
  const before = history.tests[pairs[0]?.before ?? -1] as SealedTest;
  const cylinders = pairs.map((p) => p.cylinder);
  const unit = measure === "leak-down" ? "%" : "kPa";
  const read = (of: (pair: Pair) => number) => `${listWords(pairs.map((p) => numberWords(of(p))))} ${unit}`;
  const who = `cylinder${cylinders.length === 1 ? "" : "s"} ${listWords(cylinders.map(String))}`;
  return {
    measure,
    cylinders,
    words: `${who} read ${read((p) => p.is)} after ${read((p) => p.was)} on ${dateWords(before.date)} with no repair on file: one of the two misleads, or a repair was not recorded; test again`,
  };
}
