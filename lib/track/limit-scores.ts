import { rounded } from "../assessment/rounding.ts";
import type { IsoDate } from "../schema/facts.ts";
import {
  type Forecaster,
  fewestOutcomes,
  type LimitCase,
  type LimitGroup,
  type LimitScore,
  type Range,
  type ReliabilityPoint,
  toldLevels,
  type Within,
} from "../schema/track-record.ts";
import { censoringWeights, shareEndedBy } from "../statistics/kaplan-meier.ts";
import { weightedMedian } from "../statistics/quantile.ts";
import { brierLoss, pinballLoss } from "../statistics/scores.ts";
import { shareHeld } from "./level-scores.ts";
import { probabilityAt } from "./told.ts";
import { daysFollowed, outcomesWithin, weightedMean, withinDays } from "./within.ts";

/** Scores of forecasts of when limits are met. */

const middle = toldLevels.indexOf(0.5);
const endsOf: Readonly<Record<Range, readonly [low: number, high: number]>> = { 50: [2, 4], 80: [1, 5], 90: [0, 6] };

export const cylindersOf = (cases: readonly Pick<LimitCase, "engine" | "measure" | "cylinder">[]): number =>
  new Set(cases.map((c) => `${c.engine}\u0000${c.measure}\u0000${c.cylinder}`)).size;

/** Whether a range held; null: neither test nor repair came late enough to tell. */
export function rangeHeld(
  { met, followed }: Pick<LimitCase, "met" | "followed">,
  low: number | null,
  high: number | null,
): boolean | null {
  if (met !== null) return low !== null && met >= low && (high === null || met <= high);
  return high !== null && followed > high ? false : null;
}

/** A score; `outcomes` are cylinders that met their limit, for the forecasts of one are not independent. */
export function limitScore(cases: readonly LimitCase[], forecaster: Forecaster): LimitScore {
  const met = cases.filter((one) => one.met !== null);
  const outcomes = cylindersOf(met);
  const isEnough = outcomes >= fewestOutcomes;
  const places = cases.map((one) => ({
    at: probabilityAt(one.told[forecaster], one.met ?? one.followed),
    ended: one.met !== null,
  }));
  const range = (of: Range) => {
    const [low, high] = endsOf[of];
    const all = cases.map((one) =>
      rangeHeld(one, one.told[forecaster][low] ?? null, one.told[forecaster][high] ?? null),
    );
    const below = isEnough ? shareEndedBy(places, (toldLevels[low] as number) - 1e-9) : null;
    const upTo = isEnough ? shareEndedBy(places, toldLevels[high] as number) : null;
    return {
      held: all.filter((held) => held === true).length,
      missed: all.filter((held) => held === false).length,
      open: all.filter((held) => held === null).length,
      share: below === null || upTo === null ? null : rounded(Math.max(0, upTo - below), 4),
    };
  };
  // Of a likely distance beyond what is foreseen no error can be told but that it is larger than what was followed.
  // Limits that were met early are more often known than late ones: each counts for those that were not followed so far.
  const weights = censoringWeights(cases.map(daysFollowed), Number.POSITIVE_INFINITY);
  const errors = cases.flatMap((one, i) => {
    if (one.met === null || one.met <= 0) return [];
    const told = one.told[forecaster][middle] ?? Number.POSITIVE_INFINITY;
    return [{ error: Math.abs(told - one.met) / one.met, weight: weights[i] as number }];
  });
  const middleError =
    isEnough && errors.length > 0
      ? weightedMedian(
          errors.map(({ error }) => error),
          errors.map(({ weight }) => weight),
        )
      : null;
  return {
    forecasts: cases.length,
    met: met.length,
    outcomes,
    // One distance, or never, is no range.
    ranges:
      forecaster === "fixed-interval" || forecaster === "last-time"
        ? null
        : { "50": range(50), "80": range(80), "90": range(90) },
    medianError: middleError === null || !Number.isFinite(middleError) ? null : rounded(middleError, 4),
    pinball: isEnough ? rounded(meanPinball(cases, forecaster), 4) : null,
  };
}

/** What was told and what came are both cut off where the tests end: the score stays proper, and every case counts. */
function meanPinball(cases: readonly LimitCase[], forecaster: Forecaster): number {
  const sum = cases.reduce((all, one) => {
    const came = Math.min(one.met ?? one.followed, one.followed) / one.followed;
    const loss = toldLevels.reduce((of, level, i) => {
      const told = one.told[forecaster][i];
      return of + pinballLoss(told == null ? 1 : Math.min(1, told / one.followed), came, level);
    }, 0);
    return all + loss / toldLevels.length;
  }, 0);
  return sum / cases.length;
}

export function limitScores(cases: readonly LimitCase[]): LimitGroup["scores"] {
  return {
    borecast: limitScore(cases, "borecast"),
    "straight-line": limitScore(cases, "straight-line"),
    "last-time": limitScore(cases, "last-time"),
    "fixed-interval": limitScore(cases, "fixed-interval"),
  };
}

/** "Met within so many days": Brier scores by the weights of Graf and others (lib/statistics/kaplan-meier.ts). */
export function withinScores(cases: readonly LimitCase[], asOf: IsoDate): Within[] {
  return withinDays.map((days, i) => {
    const { known, isWhole } = outcomesWithin(cases, days, asOf);
    const cylinders = cylindersOf(known.map(({ one }) => one));
    const isEnough = isWhole && cylinders >= fewestOutcomes;
    const brier = (forecaster: Forecaster) =>
      isEnough
        ? rounded(
            weightedMean(known, ({ one, came }) => brierLoss(one.within[forecaster][i] as number, came)),
            4,
          )
        : null;
    const share = weightedMean(known, ({ came }) => Number(came));
    return {
      days,
      forecasts: known.length,
      met: known.filter(({ came }) => came).length,
      cylinders,
      brier: {
        borecast: brier("borecast"),
        "straight-line": brier("straight-line"),
        "last-time": brier("last-time"),
        "fixed-interval": brier("fixed-interval"),
      },
      brierOfShare: isEnough ? rounded(share * (1 - share), 4) : null,
    };
  });
}

const bins = [0, 0.02, 0.05, 0.1, 0.3, 0.6, 1] as const;
const year = withinDays.indexOf(365);

/**
 * "Within a year": mean told probability of the forecasts in each bin, against the share that met the limit, which is the
 * product-limit estimate within the bin. Its interval is Wilson's for no more independent outcomes than cylinders, nor than
 * weights so uneven are worth (L. Kish, Survey Sampling, 1965).
 */
export function limitReliability(cases: readonly LimitCase[], asOf: IsoDate): ReliabilityPoint[] {
  return bins.slice(0, -1).flatMap((from, b) => {
    const to = bins[b + 1] as number;
    const toldOf = (one: LimitCase) => one.within.borecast[year] as number;
    const inBin = cases.filter((one) => toldOf(one) >= from && (toldOf(one) < to || to === 1));
    const { known, isWhole } = outcomesWithin(inBin, 365, asOf);
    if (known.length === 0) return [];
    const sum = known.reduce((all, { weight }) => all + weight, 0);
    const worth = sum ** 2 / known.reduce((all, { weight }) => all + weight ** 2, 0);
    const cylinders = cylindersOf(known.map(({ one }) => one));
    const isEnough = isWhole && cylinders >= fewestOutcomes;
    const held = isEnough ? weightedMean(known, ({ came }) => Number(came)) : null;
    const { share, low, high } = shareHeld(held, Math.min(worth, cylinders));
    const predicted = rounded(
      weightedMean(known, ({ one }) => toldOf(one)),
      4,
    );
    const came = known.filter((k) => k.came).length;
    return [{ predicted, observed: share, low, high, came, of: known.length }];
  });
}
