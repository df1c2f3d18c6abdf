import { dayNumber, daysBetween } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { MeterPoint } from "../sealing/types.ts";

/** Use of the quarters of a year against the year's mean, from January on; their mean is 1. */
export type Season = readonly [number, number, number, number];

/** Intervals longer than this say nothing of the quarter that they lie in. */
const longestIntervalDays = 100;
/** Days of a quarter that readings must cover for it to count as seen. */
const leastCoveredDays = 60;
/** Quarters of one unit before it says anything of a season: two years. */
const leastQuarters = 8;
/** Chi-square with 3 degrees of freedom, exceeded by chance once in a thousand. */
const criticalRankSum = 16.27;
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

/** What one unit used a day in each quarter that its readings cover, against its mean of them; empty: under two years. */
function quarterRatios(points: readonly MeterPoint[]): { readonly quarter: number; readonly ratio: number }[] {
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
  const rates = covered.map(([index, { days, used }]) => ({ quarter: index % 4, rate: used / days }));
  const mean = rates.reduce((sum, { rate }) => sum + rate, 0) / rates.length;
  return mean <= 0 ? [] : rates.map(({ quarter, rate }) => ({ quarter, ratio: rate / mean }));
}

/**
 * The season that units of a kind share: the mean use of each quarter of the year against the whole, over all units and
 * years. Only of units with two years of readings at most a hundred days apart, only where each quarter was seen twice at
 * least, and only where the quarters differ by more than chance: by the rank test of Kruskal & Wallis (J. Am. Stat. Assoc.
 * 47, 1952), for use is skewed. Readings that span two quarters are shared out by days, which makes the season look
 * flatter than it is. null: none is shown.
 */
export function seasonOf(units: readonly (readonly MeterPoint[])[]): Season | null {
  const seen = units.flatMap(quarterRatios);
  const byQuarter = [0, 1, 2, 3].map((quarter) => seen.filter((s) => s.quarter === quarter));
  if (byQuarter.some((some) => some.length < 2)) return null;
  const n = seen.length;
  const order = seen.toSorted((a, b) => a.ratio - b.ratio);
  const rankSums = [0, 0, 0, 0];
  for (const [rank, { quarter }] of order.entries()) rankSums[quarter] = (rankSums[quarter] as number) + rank + 1;
  const between = rankSums.reduce((sum, of, q) => sum + of ** 2 / (byQuarter[q] as typeof seen).length, 0);
  const statistic = (12 / (n * (n + 1))) * between - 3 * (n + 1);
  if (statistic < criticalRankSum) return null;
  const means = byQuarter.map((some) => some.reduce((sum, { ratio }) => sum + ratio, 0) / some.length);
  const mean = means.reduce((sum, m) => sum + m, 0) / 4;
  // A quarter without any use at all is told as next to none: what is divided by it stays finite.
  const [a = 1, b = 1, c = 1, d = 1] = means.map((m) => Math.max(0.02, m / mean));
  return Math.max(a, b, c, d) / Math.min(a, b, c, d) < leastRatio ? null : [a, b, c, d];
}
