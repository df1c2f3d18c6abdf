import type { AssessmentSettings } from "../schema/settings.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { Crossing } from "../schema/assessment.ts";
import type { JudgedMeasure, MeterUnit } from "../schema/words.ts";

/**
 * Wear is modelled as badness, in the unit of the measure and rising as the cylinder gets worse: leakage in %, or
 * minus the compression in kPa. `perMeter` is change for each hour, km or mile.
 */

/** What the sister engines say: the parameters of one engine model, measure and meter unit. */
export interface WearPool {
  readonly engineModel: string;
  readonly measure: JudgedMeasure;
  readonly meterUnit: MeterUnit;
  /** Engines and tests that it was fitted on; 0 engines: the prior alone. */
  readonly engines: number;
  readonly tests: number;
  /** Mean and standard deviation over engines of the level (badness) at the middle of their tests. */
  readonly levelMean: number;
  readonly levelSd: number;
  /** Mean over engines of the rate common to an engine's cylinders, and its standard deviation, per meter. */
  readonly rateMean: number;
  readonly rateSd: number;
  /** Standard deviations of a cylinder's own level and rate about its engine's. */
  readonly cylinderLevelSd: number;
  readonly cylinderRateSd: number;
  /** Standard deviation of a test's common error and of a single reading's own error. */
  readonly testSd: number;
  readonly readingSd: number;
  /** Own error of a reading that grows with its level: a share of the level (leak-down). */
  readonly readingShare: number;
  /** Wandering of the true level, badness squared per meter. */
  readonly wanderVariance: number;
  /** SHA-like fingerprint of the parameters and of the data they came from. */
  readonly fingerprint: string;
}

/** How hard a unit works: mean use a day, and how sure that is. */
export interface UseForecast {
  readonly perDay: number;
  /** Standard deviation of the natural logarithm of the mean use a day. */
  readonly logSd: number;
  /** Intervals between readings that it leans on; 0: the pool alone. */
  readonly intervals: number;
}

/** Distribution of the use from now to the first crossing: P(crossed within `ahead[i]` of use) = `probability[i]`. */
export interface CrossingDistribution {
  /** Ascending from 0, in the meter unit. */
  readonly ahead: readonly number[];
  /** Not falling; may end below 1 (the limit may never be met). */
  readonly probability: readonly number[];
}

export interface CylinderProjection {
  readonly cylinder: number;
  readonly measure: JudgedMeasure;
  /** Usable tests in the wear life; doubtful ones count by their weight only for trends, not here. */
  readonly usableTests: number;
  /** As measured, not badness: kPa or %. null: no usable reading in the wear life. */
  readonly latest: number | null;
  readonly level: number | null;
  readonly levelSd: number | null;
  /** Change of the measured value per 1,000 of the meter unit. */
  readonly rate: { readonly perThousand: number; readonly p10: number; readonly p90: number } | null;
  /** null with too few tests. */
  readonly distribution: CrossingDistribution | null;
  /** Quantiles of the level ahead, as measured, for the fan: 10, 25, 50, 75, 90 % at each `ahead`. */
  readonly fan: readonly { readonly ahead: number; readonly q: readonly [number, number, number, number, number] }[];
}

/** What telling a distribution as meter readings and dates needs. */
export interface TellingContext {
  readonly asOf: IsoDate;
  /** Reading of the meter now fitted, carried forward to the as-of date. */
  readonly meterNow: number;
  readonly use: UseForecast;
  readonly settings: AssessmentSettings;
}

export type { Crossing };
