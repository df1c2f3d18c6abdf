import type { JudgedMeasure, MeterUnit } from "../schema/words.ts";

/**
 * Wear is modelled as *badness*: in the unit of the measure and rising as the cylinder gets worse, that is leakage in %
 * or minus the compression in kPa. Rates are change of badness for each hour, km or mile ("per meter").
 */

/** What the sister engines say: the parameters of one engine model, measure and meter unit. */
export interface WearPool {
  readonly engineModel: string;
  readonly measure: JudgedMeasure;
  readonly meterUnit: MeterUnit;
  /** Engines and tests that it was fitted on; 0: the starting values of priors.ts alone. */
  readonly engines: number;
  readonly tests: number;
  /** Mean and standard deviation over engines of the level at the middle of their tests. */
  readonly levelMean: number;
  readonly levelSd: number;
  /** Mean and standard deviation over engines of the rate that an engine's cylinders have in common. */
  readonly rateMean: number;
  readonly rateSd: number;
  /** Standard deviations of a cylinder's own level and rate about its engine's. */
  readonly cylinderLevelSd: number;
  readonly cylinderRateSd: number;
  /** Standard deviation of the error that all readings of a test share. */
  readonly testSd: number;
  /** A reading's own error: variance = readingSd² + (readingShare · level)². */
  readonly readingSd: number;
  readonly readingShare: number;
  /** Variance of the true level's wandering about its line, for each unit of the meter. */
  readonly wanderVariance: number;
  /** Tells pools with other parameters or other data apart. */
  readonly fingerprint: string;
}

/** How hard a unit works: mean use a day, log-normal. */
export interface UseForecast {
  readonly perDay: number;
  /** Standard deviation of the natural logarithm of the mean use a day. */
  readonly logSd: number;
  /** Intervals between readings of its own that it leans on; 0: the pool alone. */
  readonly intervals: number;
}

/**
 * One possible state of a cylinder now: level and rate (badness, per meter) with their joint normal uncertainty. There
 * is one branch, or two where an improvement that nobody explained leaves open which past counts.
 */
export interface WearBranch {
  readonly probability: number;
  readonly level: number;
  readonly rate: number;
  readonly levelVariance: number;
  readonly rateVariance: number;
  readonly covariance: number;
}

export interface CylinderWear {
  readonly cylinder: number;
  readonly measure: JudgedMeasure;
  /** All readings of the cylinder in this engine's history. */
  readonly tests: number;
  /** Days of usable tests since the last renewal of rings and bores, none of them before it. */
  readonly usableTests: number;
  /** The last reading (badness), usable or not; null: never measured. */
  readonly latest: number | null;
  /** false: fewer than three usable tests, or none since the last repair of this cylinder. */
  readonly enough: boolean;
  /** Empty: no usable reading at all. */
  readonly branches: readonly WearBranch[];
  /** Level (badness) at its last usable test, before anything is carried forward; null: none. */
  readonly levelAtLastTest: number | null;
  /**
   * Where no test has followed a top-end repair: what the engine's cylinders have in common, the wear of rings and
   * bores, which that repair did not renew. Empty otherwise.
   */
  readonly carried: readonly WearBranch[];
}

export interface EngineWear {
  readonly measure: JudgedMeasure;
  readonly pool: WearPool;
  /** One for each cylinder of the model, ascending. */
  readonly cylinders: readonly CylinderWear[];
  /** Share of a cylinder's uncertainty ahead that it has in common with its siblings, 0 to 1. */
  readonly sharedUncertainty: number;
}

/** P(crossed within `ahead[i]` of use from now) = `probability[i]`; `ahead` ascends from 0, `probability` never falls. */
export interface CrossingDistribution {
  readonly ahead: Float64Array;
  readonly probability: Float64Array;
}
