import { repeatability } from "../repeatability.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import type { FamilyFit, Variance } from "./family-fit.ts";
import { type FleetRepeatability, fleetRepeatability } from "./fleet-repeatability.ts";

/**
 * How readings of sound cylinders of one engine model differ, in the unit of the measure and for each unit of the meter:
 * what a sequential test holds a cylinder against.
 */
export interface FamilySpread {
  /** A reading about the truth: what its test has in common, and its own part. Both at the level of the reading. */
  readonly sharedSd: (level: number) => number;
  readonly ownSd: (level: number, instrument: string | null) => number;
  /** Of a cylinder's level about its engine's, and of its rate of wear. */
  readonly cylinderLevelSd: number;
  readonly cylinderRateSd: number;
  /** The rate that an engine's cylinders have in common, worse is positive. */
  readonly rateMean: number;
  readonly rateSd: number;
  /** Variance by which the true level wanders about its line, for each unit of the meter. */
  readonly wanderVariance: number;
  /** How often air is heard at a valve or the gasket of a sound cylinder, of readings with a place heard. */
  readonly falseHearing: number;
}

export type FamilySpreads = Readonly<Record<JudgedMeasure, FamilySpread>>;

/** What is taken to be known before any test of the model. */
export type StartingSpread = Pick<
  FamilySpread,
  "cylinderLevelSd" | "cylinderRateSd" | "rateMean" | "rateSd" | "wanderVariance"
>;

/** The starting values count as so many deviations, of a reading's error in each class of level and of cylinders. */
const startingFreedom = { own: 15, cylinders: 20 };
/** No class of level is taken to scatter by less than this share of the usual variance; judgement. */
const leastOfUsual = 0.02;
/** Readings of sound cylinders with a leak heard, before the fleet says how many: 1 in 100; judgement. */
const startingHeard = { readings: 100, notBorneOut: 1 };
const startingLevels: Readonly<Record<JudgedMeasure, readonly number[]>> = {
  "leak-down": [5, 14, 25],
  "compression-dry": [1000],
};

/**
 * The spread of a family from the starting values and what the fleet's tests say: empirical Bayes, by degrees of freedom.
 *
 * @param fleet what readings repeat to over all kinds of engine; without it the starting values
 */
export function familySpread(
  measure: JudgedMeasure,
  starting: StartingSpread,
  fit: FamilyFit | null,
  fleet: FleetRepeatability = fleetRepeatability(measure, []),
): FamilySpread {
  const weighed = (sd: number, found: Variance | undefined) =>
    Math.sqrt(pooled({ variance: sd ** 2, freedom: startingFreedom.cylinders }, found).variance);
  const own = ownError(measure, fit?.own ?? []);
  const factors = new Map<string | null, number>(
    fleet.instruments.flatMap(({ instrument, factor, counts }) => (counts ? [[instrument, factor]] : [])),
  );
  const heard = fit?.heard ?? { readings: 0, notBorneOut: 0 };
  return {
    ...starting,
    sharedSd: (level) => (measure === "leak-down" ? fleet.shared.sd : (fleet.shared.sd / 100) * level),
    ownSd: (level, instrument) => (factors.get(instrument) ?? 1) * Math.sqrt(own.constant + own.ofSquare * level ** 2),
    cylinderLevelSd: weighed(starting.cylinderLevelSd, fit?.cylinderLevel),
    cylinderRateSd: weighed(starting.cylinderRateSd, fit?.cylinderRate),
    falseHearing: (startingHeard.notBorneOut + heard.notBorneOut) / (startingHeard.readings + heard.readings),
  };
}

const pooled = (a: Variance, b: Variance | undefined): Variance => {
  const freedom = a.freedom + (b?.freedom ?? 0);
  return { freedom, variance: (a.variance * a.freedom + (b === undefined ? 0 : b.variance * b.freedom)) / freedom };
};

/**
 * A reading's own variance, constant + ofSquare · level²: least squares over the classes of level, the starting values
 * among them, each weighed by its degrees of freedom over its variance squared (the variance of a variance).
 */
function ownError(measure: JudgedMeasure, classes: FamilyFit["own"]): { constant: number; ofSquare: number } {
  const starting = startingLevels[measure].map((level) => {
    return { level, variance: repeatability(measure, level).own ** 2, freedom: startingFreedom.own };
  });
  // Readings that were copied, or made up, scatter next to nothing: their class would outweigh all others without end.
  const found = classes.map((c) => ({
    ...c,
    variance: Math.max(c.variance, leastOfUsual * repeatability(measure, c.level).own ** 2),
  }));
  const points = [...starting, ...found.filter((c) => c.variance > 0)];
  const sums = { n: 0, x: 0, xx: 0, y: 0, xy: 0 };
  for (const { level, variance, freedom } of points) {
    const w = freedom / variance ** 2;
    const x = level ** 2;
    sums.n += w;
    sums.x += w * x;
    sums.xx += w * x * x;
    sums.y += w * variance;
    sums.xy += w * x * variance;
  }
  const through = { constant: 0, ofSquare: sums.xy / sums.xx };
  if (measure === "compression-dry") return through;
  const ofSquare = (sums.n * sums.xy - sums.x * sums.y) / (sums.n * sums.xx - sums.x ** 2);
  const constant = (sums.y - ofSquare * sums.x) / sums.n;
  if (ofSquare < 0) return { constant: sums.y / sums.n, ofSquare: 0 };
  return constant < 0 ? through : { constant, ofSquare };
}
