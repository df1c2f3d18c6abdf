import { median } from "../statistics/quantile.ts";
import { studentTQuantile } from "../statistics/student-t.ts";

/** One interval between readings of a meter. */
export interface UseInterval {
  readonly days: number;
  /** Use a day. */
  readonly rate: number;
}

/** An interval of so many days with next to no use is standing; a shorter one is a quiet month. Judgement. */
const leastStandingDays = 45;
/** Of what the unit does when it works. */
const standingShare = 0.05;
/** Mean use must differ so many times for a step in it to count as a change of duty. Judgement. */
const leastChange = 1.4;
/** On either side of the change. */
const leastIntervals = 2;
const leastDays = 60;
/** Chance of a false alarm over all places where a change may lie. */
const falseAlarm = 0.01;
/** Readings are never steadier than this share of the mean: rounding, and what a week more or less does. */
const leastScatter = 0.04;

const daysOf = (some: readonly UseInterval[]): number => some.reduce((sum, { days }) => sum + days, 0);
const meanOf = (some: readonly UseInterval[]): number =>
  some.reduce((sum, { rate, days }) => sum + rate * days, 0) / daysOf(some);

/**
 * Without the one spell in which the unit stood, where it worked before and after it: that is no slower rate. A unit that
 * stood more than once does so again, and what stands at the end may stand on: then nothing is left out.
 */
export function withoutStanding<T extends UseInterval>(intervals: readonly T[]): readonly T[] {
  if (intervals.length < 3) return intervals;
  const typical = median(intervals.map(({ rate }) => rate));
  const stood = intervals.map(({ rate, days }) => rate < standingShare * typical && days >= leastStandingDays);
  const spells = stood.filter((is, i) => is && stood[i - 1] !== true).length;
  if (spells !== 1 || stood[0] === true || stood.at(-1) === true) return intervals;
  return intervals.filter((_, i) => stood[i] !== true);
}

/**
 * What came after the last change of duty: a step in the use a day that is large and beyond the scatter of the intervals
 * about their means before and after it (two-sample t-test at each place where it may lie, by Bonferroni, each interval
 * weighted by its days). All intervals where there was none.
 */
export function sinceChangeOfDuty<T extends UseInterval>(intervals: readonly T[]): readonly T[] {
  const places = intervals.length - 2 * leastIntervals + 1;
  if (places < 1) return intervals;
  const critical = studentTQuantile(1 - falseAlarm / 2 / places, intervals.length - 2);
  const meanDays = daysOf(intervals) / intervals.length;
  const weight = ({ days }: UseInterval) => days / meanDays;
  let best = { score: critical, from: 0 };
  for (let from = leastIntervals; from <= intervals.length - leastIntervals; from++) {
    const [before, after] = [intervals.slice(0, from), intervals.slice(from)];
    if (Math.min(daysOf(before), daysOf(after)) < leastDays) continue;
    const [was, is] = [meanOf(before), meanOf(after)];
    if (Math.max(was, is) < leastChange * Math.min(was, is)) continue;
    const scatter = (some: readonly UseInterval[], mean: number) =>
      some.reduce((sum, one) => sum + weight(one) * (one.rate - mean) ** 2, 0);
    const variance = Math.max(
      (scatter(before, was) + scatter(after, is)) / (intervals.length - 2),
      (leastScatter * Math.max(was, is)) ** 2,
    );
    const [n, m] = [before, after].map((some) => some.reduce((sum, one) => sum + weight(one), 0)) as [number, number];
    const score = Math.abs(is - was) / Math.sqrt(variance * (1 / n + 1 / m));
    if (score > best.score) best = { score, from };
  }
  // A unit may have changed its duty twice: the last change counts.
  return best.from === 0 ? intervals : sinceChangeOfDuty(intervals.slice(best.from));
}
