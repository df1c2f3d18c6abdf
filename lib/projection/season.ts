import { dayNumber, daysBetween } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { MeterPoint } from "../sealing/types.ts";
import { fTail } from "../statistics/f-distribution.ts";

/** Use of the quarters of a year against the year's mean, from January on; their mean is 1. */
export type Season = readonly [number, number, number, number];

/** Intervals longer than this say nothing of the quarter that they lie in. */
const longestIntervalDays = 100;
/** Days of a quarter that readings must cover for it to count as seen. */
const leastCoveredDays = 60;
/** Quarters of one unit before it says anything of a season: two years. */
const leastQuarters = 8;
/** Chance to take for a season what is none. */
const falseAlarm = 0.001;
const mostDays = 36_525;
/** A quarter in which the fleet stood still: its logarithm stays finite. */
const leastRatioOfMean = 0.02;
/** A season that moves use by less is not worth telling from none. Judgement. */
const leastRatio = 1.2;

const quarterOf = (date: IsoDate): number => Math.floor((Number(date.slice(5, 7)) - 1) / 3);
const quarterStart = (index: number): IsoDate =>
  `${String(Math.floor(index / 4)).padStart(4, "0")}-${String((index % 4) * 3 + 1).padStart(2, "0")}-01`;
const quarterIndex = (date: IsoDate): number => Number(date.slice(0, 4)) * 4 + quarterOf(date);

/** Days from one date to another, weighted by the season of each; without a season the plain days. */
export function seasonDays(season: Season | null, from: IsoDate, to: IsoDate): number {
  if (season === null || to <= from) return Math.max(0, daysBetween(from, to));
  let days = 0;
  let at = from;
  for (let index = quarterIndex(from); at < to; index++) {
    const next = quarterStart(index + 1);
    const end = next < to ? next : to;
    days += (season[index % 4] as number) * daysBetween(at, end);
    at = end;
  }
  return days;
}

/**
 * The days from `from` on after which so many days weighted by season have passed: what `seasonDays` gives, the other way
 * round; a part of a day by its share. Less than 0: before it. Both stop a century off.
 */
export function daysOfSeason(season: Season, from: IsoDate, weighted: number): number {
  const start = dayNumber(from);
  const isBack = weighted < 0;
  let [days, left] = [0, Math.abs(weighted)];
  for (let index = quarterIndex(from); Math.abs(days) < mostDays; index += isBack ? -1 : 1) {
    const end = dayNumber(quarterStart(isBack ? index : index + 1));
    const most = Math.abs(end - start - days);
    const share = season[index % 4] as number;
    if (share * most >= left) return days + ((isBack ? -1 : 1) * left) / share;
    left -= share * most;
    days = end - start;
  }
  return days;
}

/** What one unit used a day in each quarter that its readings cover, against its mean of them; empty: under two years. */
function quarterRatios(points: readonly MeterPoint[]): { readonly index: number; readonly ratio: number }[] {
  const seen = new Map<number, { days: number; used: number }>();
  for (const [i, point] of points.entries()) {
    const last = points[i - 1];
    if (last === undefined) continue;
    const days = daysBetween(last.date, point.date);
    if (days <= 0 || days > longestIntervalDays) continue;
    const rate = Math.max(0, point.cumulative - last.cumulative) / days;
    for (let index = quarterIndex(last.date); index <= quarterIndex(point.date); index++) {
      const from = Math.max(dayNumber(last.date), dayNumber(quarterStart(index)));
      const to = Math.min(dayNumber(point.date), dayNumber(quarterStart(index + 1)));
      if (to <= from) continue;
      const of = seen.get(index) ?? { days: 0, used: 0 };
      seen.set(index, { days: of.days + to - from, used: of.used + rate * (to - from) });
    }
  }
  const covered = [...seen].filter(([, { days }]) => days >= leastCoveredDays);
  if (covered.length < leastQuarters) return [];
  const rates = covered.map(([index, { days, used }]) => ({ index, rate: used / days }));
  const mean = rates.reduce((sum, { rate }) => sum + rate, 0) / rates.length;
  return mean <= 0 ? [] : rates.map(({ index, rate }) => ({ index, ratio: rate / mean }));
}

/**
 * The season that units of a kind share: the mean use of each quarter of the year against the whole, over all units and
 * years. Only of units with two years of readings at most a hundred days apart, only where each quarter was seen in two
 * years at least, and only where the quarters differ by more than chance. Units of a fleet have good and bad quarters
 * together, a slump or a strike: what is judged by is therefore the fleet's mean of each calendar quarter, not the units',
 * by analysis of covariance of the logarithms, quarters of the year against what is left of the years, a steady growth of
 * use taken out (R. A. Fisher, Statistical Methods for Research Workers, 1932). Readings that span two quarters are shared
 * out by days, which makes the season look flatter than it is. null: none is shown.
 */
export function seasonOf(units: readonly (readonly MeterPoint[])[]): Season | null {
  return shownBy(fleetQuarters(units), falseAlarm)?.season ?? null;
}

/**
 * The season of units that share a depot, where it parts from that of the others of their kind: by the same analysis of what
 * they did in each calendar quarter against what the others did in it, so that a slump of the whole fleet is no difference.
 * The others' season times the difference, which leans on none as far as chance may have made it: what is left is one minus one
 * over F, the share of its variance that is not chance's, by the method of moments. This leans more than the estimator of W. James
 * and C. Stein (Proc. 4th Berkeley Symp. 1, 1961), which takes away about a third as much from three contrasts. null: no
 * difference is shown, or the others cover too little.
 *
 * @param depots how many depots are asked about, over which the chance of a false alarm is shared out (Bonferroni)
 */
export function seasonBeside(
  own: readonly (readonly MeterPoint[])[],
  others: readonly (readonly MeterPoint[])[],
  depots: number,
): Season | null {
  const beside = new Map(fleetQuarters(others).map(({ at, ratio }) => [at, Math.max(leastRatioOfMean, ratio)]));
  const difference = fleetQuarters(own).flatMap(({ at, ratio }) => {
    const of = beside.get(at);
    return of === undefined ? [] : [{ at, ratio: Math.max(leastRatioOfMean, ratio) / of }];
  });
  const shown = shownBy(difference, falseAlarm / depots);
  if (shown === null) return null;
  const base = seasonOf(others) ?? [1, 1, 1, 1];
  const leaning = Math.max(0, 1 - 1 / shown.f);
  return ofMeanOne(base.map((share, q) => share * (shown.season[q] as number) ** leaning));
}

/** What the units seen did in each calendar quarter, each against its own mean; ascending. */
function fleetQuarters(units: readonly (readonly MeterPoint[])[]): readonly FleetQuarter[] {
  const byIndex = new Map<number, number[]>();
  for (const { index, ratio } of units.flatMap(quarterRatios)) {
    byIndex.set(index, [...(byIndex.get(index) ?? []), ratio]);
  }
  return [...byIndex]
    .toSorted(([a], [b]) => a - b)
    .map(([at, ratios]) => ({ at, ratio: ratios.reduce((sum, r) => sum + r, 0) / ratios.length }));
}

/** The season that calendar quarters show beyond such a chance, with its F; null: none, or one too small to matter. */
function shownBy(
  fleet: readonly FleetQuarter[],
  chance: number,
): { readonly season: Season; readonly f: number } | null {
  const quarters = [0, 1, 2, 3].map((quarter) => fleet.filter(({ at }) => at % 4 === quarter));
  if (quarters.some((some) => some.length < 2)) return null;
  const within = linesOf(quarters);
  const freedom = fleet.length - 5;
  if (freedom <= 0) return null;
  const between = Math.max(0, linesOf([fleet]).left - within.left);
  const f = between / 3 / (within.left / freedom);
  if (between === 0 || fTail(f, 3, freedom) > chance) return null;
  const first = fleet[0]?.at ?? 0;
  const season = ofMeanOne(
    quarters.map(
      (some) =>
        some.reduce((sum, { at, ratio }) => sum + ratio * Math.exp(within.slope * (first - at)), 0) / some.length,
    ),
  );
  return Math.max(...season) / Math.min(...season) < leastRatio ? null : { season, f };
}

/** A quarter without any use at all is told as next to none: what is divided by it stays finite. */
function ofMeanOne(means: readonly number[]): Season {
  const mean = means.reduce((sum, m) => sum + m, 0) / 4;
  const [a = 1, b = 1, c = 1, d = 1] = means.map((m) => Math.max(leastRatioOfMean, m / mean));
  return [a, b, c, d];
}

/** A calendar quarter, counted from year 0 on, and the mean use in it of the units seen, each against its own mean. */
interface FleetQuarter {
  readonly at: number;
  readonly ratio: number;
}

/** Parallel lines through the logarithms of each group by least squares: their slope, and the sum of squares left over. */
function linesOf(groups: readonly (readonly FleetQuarter[])[]): { readonly slope: number; readonly left: number } {
  let [xx, xy, yy] = [0, 0, 0];
  for (const group of groups) {
    const logs = group.map(({ ratio }) => Math.log(Math.max(leastRatioOfMean, ratio)));
    const meanX = group.reduce((sum, { at }) => sum + at, 0) / group.length;
    const meanY = logs.reduce((sum, log) => sum + log, 0) / group.length;
    for (const [i, { at }] of group.entries()) {
      const [x, y] = [at - meanX, (logs[i] as number) - meanY];
      xx += x * x;
      xy += x * y;
      yy += y * y;
    }
  }
  const slope = xx === 0 ? 0 : xy / xx;
  return { slope, left: Math.max(0, yy - slope * xy) };
}
