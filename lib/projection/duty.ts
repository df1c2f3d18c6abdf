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
/** Chance of a false alarm over all places where a change may lie, and all changes looked for after one another. */
const falseAlarm = 0.01;
/**
 * Neighbouring intervals of a unit go alike, as work comes in runs: correlation that is taken for granted, however few they
 * are, and the most that is reckoned with. Judgement.
 */
const correlation = { least: 0.3, most: 0.9 };
/** Readings are never steadier than this share of their mean: rounding, and what a week more or less does. */
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
 * about their means before and after it (two-sample t-test of the logarithms of the means, each interval weighted by its
 * days, its scatter in shares of its mean, so that up and down are told alike). It is looked for in all intervals and in
 * the later half, quarter … of them, for of two opposite changes the whole shows neither; by Bonferroni
 * over all places where it may lie, a change after a change with half of the chance that is left. Use persists, so that runs
 * of busy months look like a step: the means are taken to vary by (1 + r) / (1 − r) more than those of independent
 * intervals, r being the lag-1 correlation about the two means (G. V. Bayley and J. M. Hammersley, J. R. Stat. Soc. Suppl. 8,
 * 1946), mended for its bias in short series (F. H. C. Marriott and J. A. Pope, Biometrika 41, 1954). On made-up units the
 * false alarms stay under 1 % up to a correlation of 0.3 and about 3 % at 0.6; at 0.8 they are up to 10 %. All
 * intervals where there was no change.
 */
export function sinceChangeOfDuty<T extends UseInterval>(intervals: readonly T[]): readonly T[] {
  return sinceLast(intervals, intervals, falseAlarm / 2);
}

function sinceLast<T extends UseInterval>(intervals: readonly T[], all: readonly T[], chance: number): readonly T[] {
  const parts: (readonly T[])[] = [];
  for (let count = intervals.length; count >= 2 * leastIntervals; count = Math.ceil(count / 2)) {
    parts.push(intervals.slice(intervals.length - count));
  }
  const places = parts.reduce((sum, part) => sum + part.length - 2 * leastIntervals + 1, 0);
  for (const part of parts) {
    const since = strongestStep(part, chance / places, all);
    // A unit may have changed its duty twice: the last change counts. What comes every year is seen in the whole history.
    if (since !== null) return sinceLast(since, all, chance / 2);
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
    const sums = [aboutMean(before, was, weight), aboutMean(after, is, weight)] as const;
    const squares = sums[0].squares + sums[1].squares;
    const variance = Math.max(squares / (intervals.length - 2), leastScatter ** 2);
    const r = lagOne(squares === 0 ? 0 : (sums[0].products + sums[1].products) / squares, intervals.length);
    const [n, m] = [before, after].map((some) => some.reduce((sum, one) => sum + weight(one), 0)) as [number, number];
    // A unit that stands since is told as next to no use: the logarithm stays finite.
    const step = Math.log(Math.max(was, is) / Math.max(Math.min(was, is), standingShare * Math.max(was, is)));
    const score = step / Math.sqrt(((variance * (1 + r)) / (1 - r)) * (1 / n + 1 / m));
    if (score > best.score && !comesEveryYear(all, after)) best = { score, from };
  }
  return best.from === 0 ? null : intervals.slice(best.from);
}

/** Weighted sums of the squares about a mean, and of the products of neighbours, in shares of the mean. */
function aboutMean(some: readonly UseInterval[], mean: number, weight: (one: UseInterval) => number) {
  let [squares, products, last] = [0, 0, 0];
  for (const one of some) {
    const off = mean === 0 ? 0 : Math.sqrt(weight(one)) * (one.rate / mean - 1);
    squares += off ** 2;
    products += off * last;
    last = off;
  }
  return { squares, products };
}

/** Lag-1 correlation about two means, each of which takes (1 + 3r) / n off what is seen; within what is reckoned with. */
const lagOne = (seen: number, n: number): number =>
  Math.min(correlation.most, Math.max(correlation.least, (seen + 2 / n) / Math.max(0.2, 1 - 6 / n)));
