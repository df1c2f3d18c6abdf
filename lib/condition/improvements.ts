import type { SealedTest } from "../sealing/types.ts";
import { median, medianAbsoluteDeviation } from "../statistics/quantile.ts";
import { theilSenLine } from "../statistics/theil-sen.ts";
import { cylinderWords, dateWords, numberWords, sentenceWords } from "../wording.ts";
import { isBreakingIn } from "./break-in.ts";
import type { DoubtSheet } from "./doubt-sheet.ts";
import { type CylinderSeries, isSound, type MeasureSeries, worseSign } from "./series.ts";
import type { UnexplainedImprovement } from "./types.ts";

/** What an improvement must come to: leakage by points and by share, compression by share; and beyond noise. */
const fewestPoints = 8;
const leastLeakShare = 0.35;
const leastCompressionShare = 0.08;
const zLimit = 4;
/** Of one cylinder among several that stepped at the same test; together they must still reach the limit. */
const memberZLimit = 2.5;

/** How large and how sure a step must be: the share of the least step, and the limits in standard deviations. */
export interface Strictness {
  readonly ofLeast: number;
  readonly zLimit: number;
  readonly memberZLimit: number;
}
const usualStrictness: Strictness = { ofLeast: 1, zLimit, memberZLimit };

/** Sound readings on either side that the levels there are told from. */
const windowReadings = 5;

interface Step {
  readonly cylinder: number;
  /** Indices into `history.tests`. */
  readonly before: number;
  readonly after: number;
  readonly from: number;
  readonly to: number;
  readonly testsSince: number;
  /** Variance of from − to: what the test's cylinders have in common, and the cylinder's own. */
  readonly sharedVariance: number;
  readonly ownVariance: number;
}

/**
 * Steps for the better that no repair on file explains: the repair nobody recorded, a swapped engine, another tester.
 * Each is a question for a person, one for all cylinders that stepped at the same test; the tests since keep their
 * weight. A step counts when the levels before and after, each by a robust line through up to five sound readings, differ
 * by at least 8 points and 35 % (leakage) or 8 % (compression) and by four standard deviations of repeatability and
 * referral (of the mean step, where several cylinders stepped at one test), and the readings next to it bear it out. Any repair or adjustment of the cylinder between the two tests
 * explains it, and so do rings that are bedding in.
 *
 * @param strictness less of it where something else speaks for a step already
 */
export function findImprovements(
  sheet: DoubtSheet,
  series: MeasureSeries,
  strictness: Strictness = usualStrictness,
): readonly UnexplainedImprovement[] {
  const byTest = new Map<number, Step[]>();
  for (const cylinder of series.cylinders) {
    for (const step of stepsOf(sheet, series, cylinder, strictness)) {
      const others = byTest.get(step.after);
      if (others === undefined) byTest.set(step.after, [step]);
      else others.push(step);
    }
  }
  return [...byTest.values()]
    .map((steps) => (zOf(steps) > strictness.zLimit ? steps : steps.filter((step) => zOf([step]) > strictness.zLimit)))
    .filter((steps) => steps.length > 0)
    .map((steps) => improvementOf(sheet, series, steps))
    .toSorted((a, b) => a.afterX - b.afterX);
}

/** The mean step in its standard deviations: the common error stays whole, each cylinder's own averages out. */
function zOf(steps: readonly Step[]): number {
  const mean = (of: (step: Step) => number) => steps.reduce((sum, step) => sum + of(step), 0) / steps.length;
  const variance = mean((s) => s.sharedVariance) + mean((s) => s.ownVariance) / steps.length;
  return mean((s) => Math.abs(s.from - s.to)) / Math.sqrt(variance);
}

function stepsOf(
  sheet: DoubtSheet,
  { measure }: MeasureSeries,
  series: CylinderSeries,
  strictness: Strictness,
): Step[] {
  const sign = worseSign[measure];
  const steps: Step[] = [];
  let sound: number[] = [];
  const closeLife = () => {
    for (let i = 1; i < sound.length; i++) {
      const gain = sign * (valueAt(sound[i - 1]) - valueAt(sound[i]));
      // Cheap test first: the two readings themselves must show at least half of the smallest step.
      if (gain < 0.5 * strictness.ofLeast * smallestStep(measure, valueAt(sound[i - 1]))) continue;
      const step = stepAt(sheet, series, { measure, sound, i, strictness });
      if (step !== null) steps.push(step);
    }
    sound = [];
  };
  const valueAt = (place: number | undefined) => series.value[place as number] as number;
  for (let place = 0; place < series.x.length; place++) {
    if (place > 0 && series.life[place] !== series.life[place - 1]) closeLife();
    if (isSound(sheet, series, place)) sound.push(place);
  }
  closeLife();
  return steps;
}

/** The least that an improvement must come to, in points of leakage or kPa, from the level before it. */
export const smallestStep = (measure: MeasureSeries["measure"], level: number): number =>
  measure === "leak-down" ? Math.max(fewestPoints, leastLeakShare * level) : leastCompressionShare * level;

interface Between {
  readonly measure: MeasureSeries["measure"];
  /** Places of the sound readings of one life. */
  readonly sound: readonly number[];
  readonly i: number;
  readonly strictness: Strictness;
}

/** The step between the sound readings i − 1 and i of one life. */
function stepAt(sheet: DoubtSheet, series: CylinderSeries, { measure, sound, i, strictness }: Between): Step | null {
  const sign = worseSign[measure];
  const a = sound[i - 1] as number;
  const b = sound[i] as number;
  const before = endLevel(sheet, measure, series, sound.slice(Math.max(0, i - windowReadings), i), a);
  const after = endLevel(sheet, measure, series, sound.slice(i, i + windowReadings), b);
  const drop = sign * (before.level - after.level);
  if (drop < strictness.ofLeast * smallestStep(measure, before.level)) return null;
  const value = (place: number) => series.value[place] as number;
  const halfway = before.level - (sign * drop) / 2;
  const better = (place: number) => sign * (halfway - value(place)) >= 0;
  const bornOut =
    sound.slice(i, i + 3).every(better) && sound.slice(Math.max(0, i - 2), i).every((place) => !better(place));
  if (!bornOut) return null;
  const referral = (place: number) =>
    sheet.history.tests[series.test[place] as number]?.readings[series.reading[place] as number]?.referralSd ?? 0;
  const { tests } = sheet.history;
  const [testBefore, testAfter] = [tests[series.test[a] as number], tests[series.test[b] as number]];
  if (testBefore === undefined || testAfter === undefined || testBefore.date === testAfter.date) return null;
  if (isExplained(sheet, series.cylinder, testBefore, testAfter)) return null;
  const step = {
    cylinder: series.cylinder,
    before: series.test[a] as number,
    after: series.test[b] as number,
    from: before.level,
    to: after.level,
    testsSince: sound.length - i,
    sharedVariance: before.sharedVariance + after.sharedVariance + referral(a) ** 2 + referral(b) ** 2,
    ownVariance: before.ownVariance + after.ownVariance,
  };
  return zOf([step]) > strictness.memberZLimit ? step : null;
}

/** The level at one end of some readings (two or fewer: the reading there), and the variance of that estimate, in two parts. */
function endLevel(
  { history, errors }: DoubtSheet,
  measure: MeasureSeries["measure"],
  series: CylinderSeries,
  places: readonly number[],
  end: number,
): { level: number; sharedVariance: number; ownVariance: number } {
  const n = places.length;
  const x = places.map((p) => series.x[p] as number);
  const y = places.map((p) => series.value[p] as number);
  const line = n < 3 ? null : theilSenLine(x, y);
  const level = line === null ? (series.value[end] as number) : line.intercept + line.slope * (series.x[end] as number);
  const instrument = history.tests[series.test[end] as number]?.instrument ?? null;
  const [shared, own] = [errors[measure].shared(level), errors[measure].own(level, instrument)];
  const scatter =
    line === null || n < 4
      ? 0
      : medianAbsoluteDeviation(y.map((v, k) => v - line.intercept - line.slope * (x[k] as number)));
  // Of a fitted line at the end of n evenly spaced points.
  const factor = line === null ? 1 : (4 * n - 2) / (n * (n + 1));
  return {
    level,
    sharedVariance: factor * shared ** 2,
    ownVariance: factor * Math.max(own ** 2, scatter ** 2 - shared ** 2),
  };
}

/** Whether a repair or adjustment of the cylinder on file, or rings that bed in, explain a step between two tests. */
export function isExplained({ history }: DoubtSheet, cylinder: number, before: SealedTest, after: SealedTest): boolean {
  const repaired = history.repairs.some(
    (r) =>
      (r.scope === "engine-swap" || r.cylinders.includes(cylinder)) &&
      r.x >= before.x &&
      r.x <= after.x &&
      r.date >= before.date &&
      r.date <= after.date,
  );
  return repaired || isBreakingIn(history, cylinder, before.x);
}

function improvementOf(
  { history }: DoubtSheet,
  { measure }: MeasureSeries,
  steps: readonly Step[],
): UnexplainedImprovement {
  const [first] = steps as readonly [Step, ...Step[]];
  const before = history.tests[Math.max(...steps.map((s) => s.before))] as SealedTest;
  const after = history.tests[first.after] as SealedTest;
  const cylinders = steps.map((s) => s.cylinder).toSorted((a, b) => a - b);
  const from = median(steps.map((s) => s.from));
  const to = median(steps.map((s) => s.to));
  const all = cylinders.length > 1 && cylinders.length === history.model.cylinders;
  const who = all ? "all cylinders" : cylinderWords(cylinders);
  const did =
    measure === "leak-down"
      ? `fell from ${numberWords(from)} to ${numberWords(to)} %`
      : `rose from ${numberWords(from)} to ${numberWords(to)} kPa`;
  const when = `between ${dateWords(before.date)} and ${dateWords(after.date)}`;
  const question = `${who} ${did} ${when} and no repair is on file: repaired, engine swapped or another tester?`;
  return {
    measure,
    cylinders,
    beforeX: before.x,
    afterX: after.x,
    date: after.date,
    from,
    to,
    testsSince: Math.max(...steps.map((s) => s.testsSince)),
    blankBoreOf: measure === "leak-down" ? blankBoreOf(history.tests, before, after) : null,
    words: [sentenceWords(question), ...changesBetween(before, after)].join(" "),
  };
}

/** Another tester than before, whose restrictor no test since the step tells. */
function blankBoreOf(tests: readonly SealedTest[], before: SealedTest, after: SealedTest): string | null {
  const { instrument } = after;
  if (instrument === null || before.instrument === instrument) return null;
  const since = tests.filter((test) => test.measure === "leak-down" && test.x >= after.x && test.date >= after.date);
  const isBlank = since.every((test) => test.instrument === instrument && test.setUp.orificeMm === null);
  return isBlank ? instrument : null;
}

/** What else changed at the step, which may be the answer. */
function changesBetween(before: SealedTest, after: SealedTest): string[] {
  const changes: string[] = [];
  if (before.instrument !== null && after.instrument !== null && before.instrument !== after.instrument) {
    changes.push(`The instrument changed from ${before.instrument} to ${after.instrument}.`);
  }
  if (after.measure === "leak-down") {
    const [was, is] = [before.setUp.orificeMm, after.setUp.orificeMm];
    if (was !== null && is !== null && was !== is) {
      changes.push(`The tester's restrictor changed from ${was} to ${is} mm.`);
    } else if (was !== null && is === null) changes.push("The tester's restrictor was not recorded at the later test.");
  }
  if (before.depot !== null && after.depot !== null && before.depot !== after.depot) {
    changes.push(`The depot changed from ${before.depot} to ${after.depot}.`);
  }
  return changes;
}
