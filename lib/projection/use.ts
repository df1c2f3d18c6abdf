import { daysBetween } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { MeterUnit } from "../schema/words.ts";
import type { MeterPoint } from "../sealing/types.ts";
import { median, medianAbsoluteDeviation } from "../statistics/quantile.ts";
import { sinceChangeOfDuty, type UseInterval, withoutStanding } from "./duty.ts";
import { type Season, seasonDays } from "./season.ts";
import type { UseForecast } from "./types.ts";
import { distanceBetween } from "./use-ahead.ts";

/** Use a day of a unit of which nothing is known, in a fleet of which nothing is known. Common practice, no source. */
const usualPerDay: Readonly<Record<MeterUnit, number>> = { h: 2, km: 80, mi: 50 };
const usualLogSd = 0.7;

/** What a unit did a year ago counts half of what it does now. */
const halfLifeDays = 365;
/** How much the mean use of the coming years may differ from that of the past ones, as a standard deviation of the log. */
const changeOfDutyLogSd = 0.12;
/** Readings closer together than this are one: a day's rounding would make any use of them. */
const shortestIntervalDays = 7;
/** Use a day below this share of the pool's counts as this share: a standing unit will not stand for ever. */
const leastShareOfPool = 0.005;

/** Units of a kind never work quite alike, whatever a handful of them reads. */
const leastPoolLogSd = 0.1;

/** Of a unit that is stopped or retired: it stands where it was last read. */
export const noUse: UseForecast = { perDay: 0, logSd: 0, intervals: 0 };

/** Counts up whenever what the pools of use keep, or how they are fitted, is changed. */
export const usePoolVersion = 4;

/** What the units of a kind (engine model and meter unit, or a class of units within it) say of the use of one more. */
export interface UsePool {
  readonly logMean: number;
  readonly logSd: number;
  readonly units: number;
  /** Use of the quarters of a year; null or absent: readings show none. */
  readonly season?: Season | null;
}

interface OwnUse {
  readonly perDay: number;
  /** Variance of the logarithm of the mean, from the scatter of the intervals; null: fewer than two of them. */
  readonly logVariance: number | null;
  readonly intervals: number;
  readonly changedOn?: IsoDate | null;
  readonly stood?: UseForecast["stood"];
}

/**
 * Mean use a day between readings, recent ones counting more; null: fewer than two readings a week apart. A spell of
 * standing is left out, and what came before a change of duty (duty.ts).
 *
 * @param season what the use of each quarter is divided by, so that the mean is that of a whole year
 */
export function ownUse(points: readonly MeterPoint[], asOf: IsoDate, season: Season | null = null): OwnUse | null {
  const all: (UseInterval & { readonly from: IsoDate; readonly to: IsoDate })[] = [];
  let last = points[0];
  if (last === undefined) return null;
  for (const point of points) {
    const days = daysBetween(last.date, point.date);
    if (days < shortestIntervalDays) continue;
    const rate = Math.max(0, point.cumulative - last.cumulative) / seasonDays(season, last.date, point.date);
    all.push({ days, rate, from: last.date, to: point.date });
    last = point;
  }
  const working = withoutStanding(all);
  const counted = sinceChangeOfDuty(working);
  const left = all.filter((one) => !working.includes(one));
  const [firstLeft, lastLeft] = [left[0], left.at(-1)];
  const told = {
    changedOn: counted.length < working.length ? (counted[0]?.from ?? null) : null,
    stood: firstLeft === undefined || lastLeft === undefined ? null : { from: firstLeft.from, to: lastLeft.to },
  };
  const rates = counted.map(({ rate }) => rate);
  const weights = counted.map(({ days, to }) => days * 0.5 ** (daysBetween(to, asOf) / halfLifeDays));
  const total = weights.reduce((a, b) => a + b, 0);
  if (rates.length === 0 || total <= 0) return null;
  const perDay = rates.reduce((sum, r, i) => sum + r * (weights[i] as number), 0) / total;
  if (rates.length < 2 || perDay === 0) return { perDay, logVariance: null, intervals: rates.length, ...told };
  const effective = total ** 2 / weights.reduce((sum, w) => sum + w * w, 0);
  const spread = rates.reduce((sum, r, i) => sum + (weights[i] as number) * (r - perDay) ** 2, 0) / total;
  const unbiased = effective > 1.2 ? spread * (effective / (effective - 1)) : spread * 6;
  return { perDay, logVariance: unbiased / perDay ** 2 / effective, intervals: rates.length, ...told };
}

/**
 * Pools the use of units of one kind; with none that worked, what is usual. By median and median absolute deviation of the
 * logarithms, for one unit that hardly ran or was mistyped lies many standard deviations off and would move a mean far.
 */
export function poolUse(uses: readonly (OwnUse | null)[], meterUnit: MeterUnit): UsePool {
  const logs = uses.flatMap((u) => (u !== null && u.perDay > 0 ? [Math.log(u.perDay)] : []));
  if (logs.length === 0) return { logMean: Math.log(usualPerDay[meterUnit]), logSd: usualLogSd, units: 0 };
  const n = logs.length;
  // The usual spread counts as one observation of it, so that a pool of one or two units stays wide.
  const variance = ((n - 1) * medianAbsoluteDeviation(logs) ** 2 + usualLogSd ** 2) / n;
  return { logMean: median(logs), logSd: Math.max(leastPoolLogSd, Math.sqrt(variance)), units: n };
}

/**
 * Mean use a day for the time ahead, log-normal: the unit's own use weighed against its kind's by their variances
 * (normal-normal shrinkage of the logarithm), widened for a change of duty. Never zero, never null: a unit that has stood so far may be put to work (see `noUse`).
 */
export function forecastUse(own: OwnUse | null, pool: UsePool, asOf: IsoDate): UseForecast {
  const season = pool.season == null ? null : { from: asOf, quarters: pool.season };
  if (own === null) {
    return { perDay: Math.exp(pool.logMean), logSd: Math.hypot(pool.logSd, changeOfDutyLogSd), intervals: 0, season };
  }
  const least = Math.exp(pool.logMean) * leastShareOfPool;
  const log = Math.log(Math.max(own.perDay, least));
  // One interval alone says nothing of its own scatter: half of the pool's spread stands in for it.
  const variance = Math.max(own.logVariance ?? (pool.logSd / 2) ** 2, 0.03 ** 2);
  const weight = pool.logSd ** 2 / (pool.logSd ** 2 + variance);
  return {
    perDay: Math.exp(pool.logMean + weight * (log - pool.logMean)),
    logSd: Math.hypot(Math.sqrt(weight * variance), changeOfDutyLogSd),
    intervals: own.intervals,
    changedOn: own.changedOn ?? null,
    stood: own.stood ?? null,
    season,
  };
}

/** The unit's cumulative meter at the as-of date: its last reading carried forward by its use. */
export function cumulativeNow(points: readonly MeterPoint[], use: UseForecast, asOf: IsoDate): number {
  const last = points.at(-1);
  return last === undefined ? 0 : last.cumulative + distanceBetween(use, last.date, asOf);
}
