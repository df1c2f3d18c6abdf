import type { EngineModel } from "../schema/engine-model.ts";
import type { JudgedMeasure, MeterUnit } from "../schema/words.ts";
import type { WearPool } from "./types.ts";

/**
 * What is taken to be known of an engine model before any of its engines was tested. A fleet's own data outweigh these
 * values after a handful of engines. Wear rates: common practice, no source (leakage +0.5 to +3 points and compression
 * -1 to -4 % of new for each 1,000 h; -0.2 to -0.6 % for each 10,000 km). Repeatability: engineering judgement (a test's
 * common error 1.5 points of leakage or 2.5 % of new compression; a reading's own 1 point and 7 % of its level, or 1.5 %).
 */

/** The distance that wears about as much as 1,000 h: 30 to 60 km for each hour, common practice, no source. */
export const thousandHoursOf: Readonly<Record<MeterUnit, number>> = { h: 1000, km: 45_000, mi: 28_000 };

/** How many engines the starting values count for when they are weighed against the fleet's own. */
export const priorEngines = 3;

/** The true level wanders about its line by this share of the way to the limit while it covers that way. */
const wanderShare = 0.06;

/**
 * How fast a cylinder gets worse for each 1,000 hours' use after it stepped away from its siblings, in badness. A burnt
 * valve goes from the first hiss to the limit within 50 to 400 h, a gasket at once or within weeks, while a nick or a
 * particle may stay as it is (common practice, no source): so the mean is a cautious one and the spread wide.
 */
export function rateAfterEvent({ measure, levelMean }: Pick<WearPool, "measure" | "levelMean">): {
  readonly mean: number;
  readonly sd: number;
} {
  // A point of leakage costs about half a per cent of compression.
  const perPoint = measure === "leak-down" ? 1 : 0.005 * Math.abs(levelMean);
  return { mean: 15 * perPoint, sd: 20 * perPoint };
}

export type PriorPool = Omit<WearPool, "engines" | "tests" | "fingerprint">;

/**
 * The starting values for one engine model and measure, in badness (%, or minus kPa) and per meter.
 * A model without limits for the measure gets the values of a usual engine (new 1,250 kPa; limit 30 %).
 */
export function priorPool(model: EngineModel, measure: JudgedMeasure, meterUnit: MeterUnit): PriorPool {
  const span = thousandHoursOf[meterUnit];
  const common = { engineModel: model.id, measure, meterUnit };
  if (measure === "leak-down") {
    const limit = model.leakDown?.limitPercent ?? 30;
    const rateMean = 1.5 / span;
    return {
      ...common,
      levelMean: 0.3 * limit,
      levelSd: 0.2 * limit,
      rateMean,
      rateSd: 0.6 * rateMean,
      cylinderLevelSd: 1.5,
      cylinderRateSd: 0.6 * rateMean,
      testSd: 1.5,
      readingSd: 1,
      readingShare: 0.07,
      wanderVariance: wanderShare ** 2 * 0.7 * limit * rateMean,
    };
  }
  const newKpa = model.compression?.newKpa ?? 1250;
  const minimumKpa = model.compression?.minimumKpa ?? 0.75 * newKpa;
  const rateMean = (0.02 * newKpa) / span;
  return {
    ...common,
    levelMean: -0.95 * newKpa,
    levelSd: 0.06 * newKpa,
    rateMean,
    rateSd: 0.6 * rateMean,
    cylinderLevelSd: 0.015 * newKpa,
    cylinderRateSd: 0.5 * rateMean,
    testSd: 0.025 * newKpa,
    readingSd: 0.015 * newKpa,
    readingShare: 0,
    wanderVariance: wanderShare ** 2 * (newKpa - minimumKpa) * rateMean,
  };
}
