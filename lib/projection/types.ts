import type { IsoDate } from "../schema/facts.ts";
import type { JudgedMeasure, MeterUnit } from "../schema/words.ts";
import type { WearClock } from "./clock.ts";
import type { WearScale } from "./scale.ts";
import type { Season } from "./season.ts";

/**
 * Readings are *badness*: in the unit of the measure and rising as the cylinder gets worse, that is leakage in % or minus
 * the compression in kPa. Wear is modelled on the wear scale (scale.ts), where leakage is an area.
 */

/** What the sister engines say: the parameters of one engine model, measure and meter unit. */
export interface WearPool {
  readonly engineModel: string;
  readonly measure: JudgedMeasure;
  readonly meterUnit: MeterUnit;
  /** Engines and tests that it was fitted on; 0: the starting values of priors.ts alone. */
  readonly engines: number;
  readonly tests: number;
  /** Shapes of wear over use that are still believed, the likeliest first; weights add up to 1. */
  readonly shapes: readonly WearShape[];
  /** Use at which the clocks of all shapes tick alike. */
  readonly clockUnit: number;
  /** Standard deviation of the error that all readings of a test share; badness. */
  readonly testSd: number;
  /** A reading's own error: variance = readingSd² + (readingShare · level)²; badness. */
  readonly readingSd: number;
  readonly readingShare: number;
  /** How far a new baseline may lie from the old one, on the wear scale. */
  readonly renewalSd: number;
  /** Way from the level of a new engine to the limit, on the wear scale: what faults are measured by. */
  readonly way: number;
  /** Use in which engines of the model are taken to cover that way, before any was tested. */
  readonly usualLife: number;
  /** How a cylinder's place beside its siblings in the other measure goes with that in this one; null: it does not show. */
  readonly other: BesideOther | null;
  /** Shares of cylinders in which a fault of each kind (faults.ts) begins while they are watched. */
  readonly faultShares: readonly number[];
  /** Mean and spread of the rate of the likeliest shape, in badness for each unit of the meter, at the middle of the tests. */
  readonly rateMean: number;
  readonly rateSd: number;
  /** Tells pools with other parameters or other data apart. */
  readonly fingerprint: string;
}

/** What a cylinder's place beside its siblings in one measure says of that in another, both on their wear scales. */
export interface BesideOther {
  /** Of this measure for each unit of the other. */
  readonly slope: number;
  /** Variance of the one about what the other foretells, but for errors of reading. */
  readonly scatter: number;
  /** Cylinders and days of both measures that it was learnt from. */
  readonly pairs: number;
}

/** One shape of wear over use: a power of the clock, and the parameters that go with it; levels on the wear scale. */
export interface WearShape {
  readonly power: number;
  readonly weight: number;
  /** Level at the beginning of a life and rate on the clock, over engines; variance of wandering for each unit of it. */
  readonly levelMean: number;
  readonly levelSd: number;
  readonly rateMean: number;
  readonly rateSd: number;
  readonly wander: number;
  /** The same of a cylinder beside the mean of all cylinders of its engine; of a single cylinder, of cylinders at large. */
  readonly ownLevelSd: number;
  readonly ownRateSd: number;
  readonly ownWander: number;
  /** Standard deviation of a test's common error; badness. */
  readonly testSd: number;
  /** Factor on the variance of the readings' own errors as priors.ts has it. */
  readonly ownErrorFactor: number;
}

/** How hard a unit works: mean use a day over a year, log-normal. */
export interface UseForecast {
  readonly perDay: number;
  /** Standard deviation of the natural logarithm of the mean use a day. */
  readonly logSd: number;
  /** Intervals between readings of its own that it leans on; 0: the pool alone. */
  readonly intervals: number;
  /** The unit's duty changed then, and what came before it does not count; null or absent: it did not. */
  readonly changedOn?: IsoDate | null;
  /** It stood once, and that does not count as its use; null or absent: it did not. */
  readonly stood?: { readonly from: IsoDate; readonly to: IsoDate } | null;
  /** The season of the unit's kind, as seen from the as-of date; null or absent: it works alike all year. */
  readonly season?: { readonly from: IsoDate; readonly quarters: Season } | null;
}

/**
 * One possible state of a cylinder now: level and rate with their joint normal uncertainty, on the wear scale and on the
 * branch's own clock. There is a branch for each shape of wear and each course of events that is still believed.
 */
export interface WearBranch {
  readonly probability: number;
  readonly level: number;
  /** For each unit of the branch's clock. */
  readonly rate: number;
  readonly levelVariance: number;
  readonly rateVariance: number;
  readonly covariance: number;
  /** Variance of the level's wandering for each unit of the clock. */
  readonly wander: number;
  readonly clock: WearClock;
  /** Wear meter of now, from which on the clock is read. */
  readonly now: number;
  /** Whether the clock is that of a fault, and not of wear. */
  readonly isFault: boolean;
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
  /** Share of what is said of its rate that its own engine's tests said, and not its sisters: 0 to 1. */
  readonly ownShare: number;
  /** Faults that may have begun in it, each between two tests (wear meters; null: before the first), by how far it is believed. */
  readonly faults: readonly { readonly probability: number; readonly after: number | null; readonly by: number }[];
  /** Level (badness) at its last usable test, before anything is carried forward; null: none. */
  readonly levelAtLastTest: number | null;
  /**
   * Where no test has followed a top-end repair: the wear of rings and bores, which that repair did not renew, without
   * the fault that it cured. Empty otherwise.
   */
  readonly carried: readonly WearBranch[];
}

export interface EngineWear {
  readonly measure: JudgedMeasure;
  readonly pool: WearPool;
  readonly scale: WearScale;
  /** One for each cylinder of the model, ascending. */
  readonly cylinders: readonly CylinderWear[];
  /** Share of a cylinder's uncertainty ahead that it has in common with its siblings, 0 to 1. */
  readonly sharedUncertainty: number;
  /**
   * How far it is believed that all cylinders stepped at the last tests, where too few came before to tell a step from a spoilt
   * test, 0 to 1; 0: nothing of that kind.
   */
  readonly stepped: number;
}

/** P(crossed within `ahead[i]` of use from now) = `probability[i]`; `ahead` ascends from 0, `probability` never falls. */
export interface CrossingDistribution {
  readonly ahead: Float64Array;
  readonly probability: Float64Array;
}
