import { median } from "../statistics/quantile.ts";
import { studentTQuantile } from "../statistics/student-t.ts";

/** One interval between readings of a meter. */
export interface UseInterval {
  readonly days: number;
  /** Use a day. */
  readonly rate: number;
}

/** So many days on end with next to no use are standing; fewer are a quiet month. Judgement. */
const leastStandingDays = 45;
/** Of what the unit does when it works. */
const standingShare = 0.05;
/** Mean use must differ so many times for a step in it to count as a change of duty. Judgement. */
const leastChange = 1.4;
/** On either side of the change. */
const leastIntervals = 2;
const leastDays = 60;
const yearDays = 365;
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
  const isIdle = intervals.map(({ rate }) => rate < standingShare * typical);
  const spells: number[][] = [];
  for (const [i, idle] of isIdle.entries()) {
    if (idle && isIdle[i - 1] === true) spells.at(-1)?.push(i);
    else if (idle) spells.push([i]);
  }
  const long = spells.filter((spell) => daysOf(spell.map((i) => intervals[i] as T)) >= leastStandingDays);
  const [stood] = long;
  if (stood === undefined || long.length > 1 || stood.includes(0) || stood.includes(intervals.length - 1)) {
    return intervals;
  }
  return intervals.filter((_, i) => !stood.includes(i));
}

/**
 * What came after the last change of duty: a step in the use a day that is large and beyond the scatter of the intervals
 * about their means before and after it (two-sample t-test, each interval weighted by its days). It is looked for in all
 * intervals and in the later half, quarter … of them, for of two opposite changes the whole shows neither; by Bonferroni
 * over all places where it may lie. All intervals where there was none.
 */
export function sinceChangeOfDuty<T extends UseInterval>(intervals: readonly T[]): readonly T[] {
  const parts: (readonly T[])[] = [];
  for (let count = intervals.length; count >= 2 * leastIntervals; count = Math.ceil(count / 2)) {
    parts.push(intervals.slice(intervals.length - count));
  }
  const places = parts.reduce((sum, part) => sum + part.length - 2 * leastIntervals + 1, 0);
  for (const part of parts) {
    const since = strongestStep(part, falseAlarm / places, intervals);
    // A unit may have changed its duty twice: the last change counts.
    if (since !== null) return sinceChangeOfDuty(since);
  }
  return intervals;
}

/**
 * Whether the last intervals go as the same days of the year before did: then what looks like a change comes every year.
 * A year of readings or more cannot be mistaken so.
 */
function comesEveryYear(all: readonly UseInterval[], after: readonly UseInterval[]): boolean {
  const span = daysOf(after);
  if (span >= yearDays) return false;
  const covered: UseInterval[] = [];
  let end = 0;
  for (const { days, rate } of all.toReversed()) {
    const within = Math.min(end + days, yearDays + span) - Math.max(end, yearDays);
    if (within > 0) covered.push({ days: within, rate });
    end += days;
  }
  if (daysOf(covered) < span / 2) return false;
  const [before, is] = [meanOf(covered), meanOf(after)];
  return Math.max(before, is) < leastChange * Math.min(before, is);
}

/** What follows the place where a step is most significant; null: at none is it so at this level. */
function strongestStep<T extends UseInterval>(
  intervals: readonly T[],
  level: number,
  all: readonly T[],
): readonly T[] | null {
  const critical = studentTQuantile(1 - level / 2, intervals.length - 2);
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
    if (score > best.score && !comesEveryYear(all, after)) best = { score, from };
  }
  return best.from === 0 ? null : intervals.slice(best.from);
}
