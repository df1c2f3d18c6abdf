import { addDays } from "../calendar.ts";
import type { Crossing } from "../schema/assessment.ts";
import type { IsoDate } from "../schema/facts.ts";
import { daysQuantile, probabilityWithinDays, useQuantile } from "./crossing.ts";
import type { CrossingDistribution, UseForecast } from "./types.ts";

const daysInYear = 365;

/** What turns use ahead into meter readings and dates. */
export interface Telling {
  readonly asOf: IsoDate;
  /** Reading of the meter now fitted, carried forward to the as-of date. */
  readonly meterNow: number;
  readonly use: UseForecast;
  readonly horizonDays: number;
}

const nothing = { p10: null, p50: null, p90: null };

/** A probability as files and pages tell it: four decimals. */
export const toldProbability = (p: number): number => Math.round(Math.min(1, Math.max(0, p)) * 1e4) / 1e4;

/** The limit is met now: all three quantiles stand at the as-of meter and date. */
export function tellCrossed({ asOf, meterNow }: Telling): Crossing {
  return {
    status: "crossed",
    meter: { p10: meterNow, p50: meterNow, p90: meterNow },
    date: { p10: asOf, p50: asOf, p90: asOf },
    probabilityWithinYear: 1,
  };
}

/** No range is told; the chance within a year is the pool's, or null where the pool has none either. */
export function tellTooFewTests(pool: CrossingDistribution | null, { use }: Telling): Crossing {
  return {
    status: "too-few-tests",
    meter: nothing,
    date: nothing,
    probabilityWithinYear: pool === null ? null : toldProbability(probabilityWithinDays(pool, use, daysInYear)),
  };
}

/**
 * Quantiles of the first crossing by meter and by date. A quantile is null in both where its date lies beyond the
 * horizon; not even P10 within it: `not-foreseen`. Meter quantiles are whole and never below the meter now.
 */
export function tellCrossing(distribution: CrossingDistribution, telling: Telling): Crossing {
  const { asOf, meterNow, use, horizonDays } = telling;
  const at = (p: number) => {
    const days = daysQuantile(distribution, use, p, horizonDays);
    const ahead = days === null ? null : useQuantile(distribution, p);
    return days === null || ahead === null
      ? { meter: null, date: null }
      : { meter: Math.max(meterNow, Math.round(meterNow + ahead)), date: addDays(asOf, days) };
  };
  const [p10, p50, p90] = [at(0.1), at(0.5), at(0.9)];
  return {
    status: p10.date === null ? "not-foreseen" : "projected",
    meter: { p10: p10.meter, p50: p50.meter, p90: p90.meter },
    date: { p10: p10.date, p50: p50.date, p90: p90.date },
    probabilityWithinYear: toldProbability(probabilityWithinDays(distribution, use, daysInYear)),
  };
}
