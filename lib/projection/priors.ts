import type { EngineModel } from "../schema/engine-model.ts";
import type { JudgedMeasure, MeterUnit } from "../schema/words.ts";
import { type WearScale, wearScaleOf } from "./scale.ts";
import type { OwnError } from "./two-parts.ts";

/**
 * What is taken to be known of an engine model before any of its engines was tested. A fleet's own data outweigh these
 * values after a handful of engines. Wear rates: common practice, no source (leakage +0.5 to +3 points and compression
 * -1 to -4 % of new for each 1,000 h; -0.2 to -0.6 % for each 10,000 km). Repeatability: engineering judgement (a test's
 * common error 1.5 points of leakage or 2.5 % of new compression; a reading's own 1 point and 7 % of its level, or 1.5 %).
 * A point of leakage has the rounding to whole per cents in it, which is reckoned with by itself.
 */

/** The distance that wears about as much as 1,000 h: 30 to 60 km for each hour, common practice, no source. */
export const thousandHoursOf: Readonly<Record<MeterUnit, number>> = { h: 1000, km: 45_000, mi: 28_000 };

/** Where a fit begins; levels and rates on the wear scale, rates for each unit of the meter. */
export interface WearStart {
  readonly scale: WearScale;
  /** Use that wears about as much as 1,000 h. */
  readonly span: number;
  readonly levelMean: number;
  readonly levelSd: number;
  readonly rateMean: number;
  readonly rateSd: number;
  readonly ownLevelSd: number;
  readonly ownRateSd: number;
  /** Standard deviation that wandering has reached by the end of the way to the limit, as a share of that way. */
  readonly wanderShare: number;
  readonly testSd: number;
  readonly error: OwnError;
  readonly way: number;
}

/** Where nothing else is known, a share of the way to the limit. */
const renewalShare = 0.35;
export const renewalSdOf = ({ way }: WearStart): number => renewalShare * way;

/** Use in which an engine of the model usually covers the way from new to the limit. */
export const usualLifeOf = ({ way, rateMean }: WearStart): number => way / rateMean;

/** An untested engine may be one of the few that lie far off, which a normal spread leaves out. Judgement. */
export const farOffShare = 0.2;

/** Shares of cylinders that a fault of each kind (faults.ts) begins in while they are watched. Judgement. */
export const priorFaultShares: readonly number[] = [0.02, 0.02];

/**
 * The starting values for one engine model and measure. A model without limits for the measure gets the values of a
 * usual engine (new 1,250 kPa; limit 30 %).
 */
export function wearStart(model: EngineModel, measure: JudgedMeasure, meterUnit: MeterUnit): WearStart {
  const scale = wearScaleOf(model, measure);
  const span = thousandHoursOf[meterUnit];
  if (measure === "leak-down") {
    const limit = model.leakDown?.limitPercent ?? 30;
    const asNew = scale.of(0.2 * limit);
    const rateMean = 1.5 / span;
    return {
      scale,
      span,
      levelMean: asNew,
      levelSd: 0.25 * (scale.of(limit) - asNew),
      rateMean,
      rateSd: 0.6 * rateMean,
      ownLevelSd: 1.5,
      ownRateSd: 0.5 * rateMean,
      wanderShare: 0.1,
      testSd: 1.5,
      error: { readingSd: Math.sqrt(1 - 1 / 12), readingShare: 0.07 },
      way: scale.of(limit) - asNew,
    };
  }
  const newKpa = model.compression?.newKpa ?? 1250;
  const minimumKpa = model.compression?.minimumKpa ?? 0.75 * newKpa;
  const rateMean = (0.015 * newKpa) / span;
  return {
    scale,
    span,
    levelMean: -0.98 * newKpa,
    levelSd: 0.06 * newKpa,
    rateMean,
    rateSd: 0.6 * rateMean,
    ownLevelSd: 0.015 * newKpa,
    ownRateSd: 0.5 * rateMean,
    wanderShare: 0.1,
    testSd: 0.025 * newKpa,
    error: { readingSd: 0.015 * newKpa, readingShare: 0 },
    way: newKpa - minimumKpa,
  };
}

/** The true level of a sound cylinder strays by this share of the way to the limit while it covers that way. */
const soundWanderShare = 0.06;

/** What sound cylinders of an engine model are taken to differ by before any was tested: badness, rates for each meter. */
export function startingSpread(model: EngineModel, measure: JudgedMeasure, meterUnit: MeterUnit) {
  // A unit of the wear scale is one of badness at the level of a sound engine.
  const { ownLevelSd, ownRateSd, rateMean, rateSd, way } = wearStart(model, measure, meterUnit);
  return {
    cylinderLevelSd: ownLevelSd,
    cylinderRateSd: ownRateSd,
    rateMean,
    rateSd,
    wanderVariance: soundWanderShare ** 2 * way * rateMean,
  };
}
