import {
  beforeReadings,
  type CommonShape,
  clockReadings,
  followCommon,
  type OwnShape,
  partsOf,
  startBeliefs,
} from "./courses.ts";
import { logSum } from "./faults.ts";
import { assumedStart, type LifeStart, lifeStarts } from "./life-start.ts";
import type { WearObservations } from "./observations.ts";
import { priorFaultShares, renewalSdOf, usualLifeOf, type WearStart } from "./priors.ts";
import { highestSteps } from "./search.ts";
import type { TwoParts } from "./two-parts.ts";

/** The common part of a pool's engines: its likeliest parameters, and where lives began by it. By steps, as pool.ts goes. */

/** How far, as a standard deviation of the logarithm, a parameter may lie from its starting value. */
export const spreadLogSd = 0.8;
export const wanderLogSd = 1;
export const errorLogSd = 1.5;
const levelMeanSds = 2.5;
const rateMeanShare = 1;

const wanderOf = (start: WearStart): number => start.wanderShare ** 2 * start.way * start.rateMean;

/** What cylinders differ by beside the common part, as it is held beforehand. */
export const ownStart = (start: WearStart) => ({
  ownLevelSd: start.ownLevelSd,
  ownRateSd: start.ownRateSd,
  ownWander: 0.5 * wanderOf(start),
  ownErrorFactor: 1,
});

/** An engine that a pool is fitted on. */
export interface PoolEngine {
  readonly parts: TwoParts;
  /** Where its life may have begun. */
  readonly starts: readonly LifeStart[];
  /** The likeliest of them. */
  readonly from: number;
}

/** Its readings in parts, and where its life may have begun; `from`: where it is taken to have begun for a first look. */
export function poolEngine(start: WearStart, observations: WearObservations): PoolEngine {
  const before = beforeReadings(observations);
  return {
    parts: partsOf(observations, start.scale, start.error, {
      shape: ownStart(start),
      renewalSd: renewalSdOf(start),
      way: start.way,
      usualLife: usualLifeOf(start),
      span: start.span,
      shares: priorFaultShares,
    }),
    starts: lifeStarts(before, usualLifeOf(start)),
    from: assumedStart(before, usualLifeOf(start)),
  };
}

/**
 * Where each engine's life is likeliest to have begun, by the even wear that all engines together show: what cylinders
 * differ by depends so little on it that their own parts are reckoned from there alone.
 */
export function* withLikelyStarts(
  start: WearStart,
  engines: readonly PoolEngine[],
  clockUnit: number,
): Generator<void, readonly PoolEngine[]> {
  if (engines.every((e) => e.starts.length === 1)) return engines;
  const { shape, own } = yield* fitCommon(start, engines, { power: 1, clockUnit }, ownStart(start));
  return engines.map((e) => {
    if (e.starts.length === 1) return e;
    const pool = { clockUnit, renewalSd: renewalSdOf(start) };
    const beliefs = startBeliefs(e.parts, e.starts, { ...shape, ...own, power: 1 }, pool);
    const likeliest = e.starts[beliefs.indexOf(Math.max(...beliefs))] as LifeStart;
    return { ...e, from: likeliest.from };
  });
}

/**
 * The parameters of the common part, over all beginnings of each engine's life; of single cylinders also how large the
 * readings' own error is, which the common part tells where there is no other.
 */
export function* fitCommon(
  start: WearStart,
  engines: readonly PoolEngine[],
  { power, clockUnit }: { readonly power: number; readonly clockUnit: number },
  ownFitted: OwnShape,
): Generator<void, { readonly shape: CommonShape; readonly own: OwnShape; readonly value: number }> {
  const renewalSd = renewalSdOf(start);
  const clocks = engines.map(({ parts, starts }) =>
    starts.map(({ from }) => clockReadings(parts.common, { from, power, unit: clockUnit })),
  );
  const common0 = { levelSd: start.levelSd, rateSd: start.rateSd, wander: wanderOf(start), testSd: start.testSd };
  const commonOf = (tried: readonly number[]): CommonShape => ({
    levelMean: start.levelMean + start.levelSd * (tried[0] as number),
    levelSd: common0.levelSd * Math.exp(tried[1] as number),
    rateMean: start.rateMean * (1 + (tried[2] as number)),
    rateSd: common0.rateSd * Math.exp(tried[3] as number),
    wander: common0.wander * Math.exp(tried[4] as number),
    testSd: common0.testSd * Math.exp(tried[5] as number),
  });
  const ownTried = (tried: readonly number[]): OwnShape => ({
    ...ownFitted,
    ownErrorFactor: ownFitted.ownErrorFactor * Math.exp(tried[6] as number),
  });
  const single = engines.every((e) => e.parts.own.length === 1);
  const found = yield* highestSteps(
    (tried) => {
      const shape = { ...commonOf(tried), ...ownTried(tried) };
      let sum =
        -0.5 * ((tried[0] as number) / levelMeanSds) ** 2 -
        0.5 * ((tried[1] as number) / spreadLogSd) ** 2 -
        0.5 * ((tried[2] as number) / rateMeanShare) ** 2 -
        0.5 * ((tried[3] as number) / spreadLogSd) ** 2 -
        0.5 * ((tried[4] as number) / wanderLogSd) ** 2 -
        0.5 * ((tried[5] as number) / errorLogSd) ** 2 -
        0.5 * ((tried[6] as number) / errorLogSd) ** 2;
      for (const [e, { parts, starts }] of engines.entries()) {
        const logs = (clocks[e] as number[][]).map(
          (clock, k) =>
            Math.log((starts[k] as LifeStart).share) + followCommon(parts, clock, shape, renewalSd).logLikelihood,
        );
        sum += logSum(logs);
      }
      return sum;
    },
    [0, 0, 0, 0, 0, 0, 0],
    engines.length === 0
      ? [0, 0, 0, 0, 0, 0, 0]
      : single
        ? [0.5, 0.5, 0.5, 0.5, 1, 0.3, 0.3]
        : [0.5, 0.5, 0.5, 0.5, 1, 0.3, 0],
    0.15,
  );
  return { shape: commonOf(found.at), own: ownTried(found.at), value: found.value };
}
