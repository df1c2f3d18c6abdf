import { wienerFirstPassageCdf } from "../statistics/first-passage.ts";
import { normalCdf, normalDensity, normalNodes, normalQuantile } from "../statistics/normal.ts";
import { clockAt } from "./clock.ts";
import type { CrossingDistribution, UseForecast, WearBranch } from "./types.ts";
import { distanceWithin } from "./use-ahead.ts";

const gridPoints = 41;
/** Strata of the present level, of equal probability; each is represented by its mean. */
const levelStrata = 8;
/** For the uncertain use. */
const useNodes = normalNodes(9);

/**
 * Use ahead at which distributions are kept: from 0 to what the unit covers within some days even if it works harder
 * than foreseen; close together near 0, where dates matter most. All cylinders of a unit share one grid.
 */
export function aheadGrid(use: UseForecast, days: number): Float64Array {
  const top = distanceWithin(use, days) * Math.exp(use.logSd * (useNodes.at(-1) as number));
  return Float64Array.from({ length: gridPoints }, (_, i) => top * (i / (gridPoints - 1)) ** 1.8);
}

/**
 * Distribution of the use from now until the level first meets the limit, for a level and a rate that are jointly normal
 * and a level that wanders as a Wiener process. What is known already to lie beyond the limit counts as crossed now.
 *
 * For a given present level the rate is normal, and the first passage of a Wiener process with normal drift has a closed
 * form (lib/statistics/first-passage.ts); over the present level it is averaged in eight strata of equal probability.
 *
 * @param branches possible states now, probabilities adding up to 1
 * A branch's own clock says how far the use ahead brings it: on that clock its course is straight.
 *
 * @param limit on the wear scale
 */
export function crossingDistribution(
  branches: readonly WearBranch[],
  limit: number,
  ahead: Float64Array,
): CrossingDistribution {
  const probability = new Float64Array(ahead.length);
  for (const branch of branches) addBranch(probability, branch, limit, ahead);
  let highest = 0;
  for (let i = 0; i < probability.length; i++) {
    highest = Math.min(1, Math.max(highest, probability[i] as number));
    probability[i] = highest;
  }
  return { ahead, probability };
}

function addBranch(into: Float64Array, branch: WearBranch, limit: number, ahead: Float64Array): void {
  const begun = clockAt(branch.clock, branch.now);
  const clock = ahead.map((use) => clockAt(branch.clock, branch.now + use) - begun);
  const levelSd = Math.sqrt(branch.levelVariance);
  const below = levelSd === 0 ? Number(branch.level < limit) : normalCdf((limit - branch.level) / levelSd);
  const crossedNow = 1 - below;
  const slope = levelSd === 0 ? 0 : branch.covariance / branch.levelVariance;
  const driftSd = Math.sqrt(Math.max(0, branch.rateVariance - slope * branch.covariance));
  for (let i = 0; i < into.length; i++) into[i] = (into[i] as number) + branch.probability * crossedNow;
  if (below < 1e-12) return;
  const share = (branch.probability * below) / levelStrata;
  let densityBelow = 0;
  for (let k = 0; k < levelStrata; k++) {
    // Mean of a normal between two of its quantiles: the fall of the density from one to the other, over the probability.
    const densityAbove = normalDensity(normalQuantile((below * (k + 1)) / levelStrata));
    const z = (densityBelow - densityAbove) / (below / levelStrata);
    densityBelow = densityAbove;
    const level = branch.level + z * levelSd;
    const drift = branch.rate + slope * (level - branch.level);
    for (let i = 1; i < into.length; i++) {
      into[i] =
        (into[i] as number) +
        share * wienerFirstPassageCdf(clock[i] as number, limit - level, drift, driftSd, branch.wander);
    }
  }
}

/** A limit that is met now: the whole distribution at 0. */
export function crossedNow(ahead: Float64Array): CrossingDistribution {
  return { ahead, probability: new Float64Array(ahead.length).fill(1) };
}

/** P(crossed within `distance` of use), straight between grid points; beyond the grid its last value. */
export function probabilityWithin({ ahead, probability }: CrossingDistribution, distance: number): number {
  const last = ahead.length - 1;
  if (distance >= (ahead[last] as number)) return probability[last] as number;
  if (distance <= 0) return probability[0] as number;
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((ahead[middle] as number) <= distance) low = middle;
    else high = middle;
  }
  const a = ahead[low] as number;
  const t = (distance - a) / ((ahead[high] as number) - a);
  return (probability[low] as number) * (1 - t) + (probability[high] as number) * t;
}

/** Use ahead within which the limit is crossed with the given probability; null: not within the grid. */
export function useQuantile({ ahead, probability }: CrossingDistribution, p: number): number | null {
  const index = probability.findIndex((v) => v >= p);
  if (index < 0) return null;
  if (index === 0) return 0;
  const p0 = probability[index - 1] as number;
  const a0 = ahead[index - 1] as number;
  return a0 + ((p - p0) / ((probability[index] as number) - p0)) * ((ahead[index] as number) - a0);
}

/** P(crossed within `days`), with the use a day log-normal. */
export function probabilityWithinDays(distribution: CrossingDistribution, use: UseForecast, days: number): number {
  const distance = distanceWithin(use, days);
  let sum = 0;
  for (const z of useNodes) sum += probabilityWithin(distribution, Math.exp(use.logSd * z) * distance);
  return sum / useNodes.length;
}

/** Whole days from now within which the limit is crossed with the given probability; null: not within the horizon. */
export function daysQuantile(
  distribution: CrossingDistribution,
  use: UseForecast,
  p: number,
  horizonDays: number,
): number | null {
  if ((distribution.probability[0] as number) >= p) return 0;
  if (probabilityWithinDays(distribution, use, horizonDays) < p) return null;
  let low = 0;
  let high = horizonDays;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (probabilityWithinDays(distribution, use, middle) >= p) high = middle;
    else low = middle;
  }
  return high;
}
