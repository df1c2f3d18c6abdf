import { fingerprintOf } from "../fingerprint.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import type { JudgedMeasure, MeterUnit } from "../schema/words.ts";
import { median } from "../statistics/quantile.ts";
import { inOneGo } from "../steps.ts";
import { clockSpeed } from "./clock.ts";
import { followCourse } from "./course.ts";
import { clockReadings, ownCourse, ownPrior } from "./courses.ts";
import { faultKinds, settleAccounts, weighAccounts } from "./faults.ts";
import {
  errorLogSd,
  fitCommon,
  ownStart,
  type PoolEngine,
  poolEngine,
  spreadLogSd,
  wanderLogSd,
  withLikelyStarts,
} from "./fit-common.ts";
import type { WearObservations } from "./observations.ts";
import { priorFaultShares, renewalSdOf, usualLifeOf, type WearStart, wearStart } from "./priors.ts";
import { highestSteps } from "./search.ts";
import type { WearPool, WearShape } from "./types.ts";

/**
 * Empirical Bayes: the parameters of a model's wear by penalised maximum likelihood over its engines (Robbins 1964;
 * marginal likelihood of the mixed model as in Laird and Ware 1982). What is held beforehand (priors.ts) is the penalty:
 * standard deviations are log-normal about their starting values, so that a pool of few engines stays near them. For each
 * shape of wear over use the common and the own part are fitted on their own; the shapes' likelihoods say how far each is
 * believed.
 */

/** Goes up when what a pool holds, or how it is fitted, changes: kept pools of another version are fitted anew. */
export const wearModelVersion = 8;

/** Engines that a pool is fitted on at most: more add cost but hardly precision. The caller picks them evenly. */
export const engineSample = 400;
/** Engines on which the parameters are searched; the shapes are weighed on the same. */
const searched = 120;

/** Powers of use that wear may follow, and what is held of them beforehand. */
const powers: readonly { readonly power: number; readonly share: number }[] = [
  { power: 1, share: 0.4 },
  { power: 1.5, share: 0.2 },
  { power: 2, share: 0.16 },
  { power: 2.6, share: 0.12 },
  { power: 0.7, share: 0.12 },
];
/** Engines agree on a shape less than their likelihoods say, for each is a little wrong; so belief moves slower. */
const beliefTempered = 0.5;
const leastBelief = 0.05;

const priorCylinders = 25;

export interface PoolInput {
  readonly key: string;
  readonly observations: WearObservations;
}

/** Fits the pool of an engine model; any number of engines, also none: then it is the starting values. */
export function fitWearPool(
  model: EngineModel,
  measure: JudgedMeasure,
  meterUnit: MeterUnit,
  inputs: readonly PoolInput[],
): WearPool {
  return inOneGo(fitWearPoolSteps(model, measure, meterUnit, inputs));
}

/** The same by steps, each one look at the sampled engines, so that others may work in between. */
export function* fitWearPoolSteps(
  model: EngineModel,
  measure: JudgedMeasure,
  meterUnit: MeterUnit,
  inputs: readonly PoolInput[],
): Generator<void, WearPool> {
  const start = wearStart(model, measure, meterUnit);
  const fitted = yield* fitPoolSteps(start, inputs);
  const pool = { engineModel: model.id, measure, meterUnit, ...fitted };
  return { ...pool, fingerprint: fingerprintOf(JSON.stringify(pool)) };
}

export type FittedPool = Omit<WearPool, "engineModel" | "measure" | "meterUnit" | "fingerprint">;

/** The same, for whatever wears: what it begins with is given. The order of the engines does not matter. */
export function fitPool(start: WearStart, inputs: readonly PoolInput[]): FittedPool {
  return inOneGo(fitPoolSteps(start, inputs));
}

function* fitPoolSteps(start: WearStart, inputs: readonly PoolInput[]): Generator<void, FittedPool> {
  const tested = inputs
    .filter((e) => e.observations.tests.length > 0)
    .toSorted((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));
  const used: PoolEngine[] = [];
  for (const { observations } of pickEvenly(tested, searched)) {
    used.push(poolEngine(start, observations));
    yield;
  }
  const clockUnit =
    used.length === 0
      ? 4 * start.span
      : Math.max(start.span / 100, median(used.map((e) => (e.parts.x.at(-1) as number) - e.from)));
  const settled = yield* withLikelyStarts(start, used, clockUnit);
  const shapes: FittedShape[] = [];
  for (const { power, share } of powers) {
    shapes.push(yield* fitShape(start, settled, { power, clockUnit, share }));
  }
  const best = Math.max(...shapes.map((s) => s.logBelief));
  const believed = shapes
    .map((s) => ({ ...s, belief: Math.exp(s.logBelief - best) }))
    .toSorted((a, b) => b.belief - a.belief);
  const total = believed.reduce((sum, s) => sum + s.belief, 0);
  const kept = believed.filter((s) => s.belief / total >= leastBelief);
  const keptTotal = kept.reduce((sum, s) => sum + s.belief, 0);
  const first = kept[0] as (typeof kept)[number];
  const x = median(
    used
      .flatMap((e) => (e.parts.x.length > 0 ? [median(e.parts.x) - e.from] : []))
      .concat(used.length === 0 ? [clockUnit / 2] : []),
  );
  const clock = { from: 0, power: first.shape.power, unit: clockUnit };
  const level = first.shape.levelMean + first.shape.rateMean * clockReadingOf(clock, x);
  const perMeter = clockSpeed(clock, x) / start.scale.slope(start.scale.back(level));
  return {
    engines: tested.length,
    tests: tested.reduce((sum, e) => sum + e.observations.tests.length, 0),
    shapes: kept.map(({ shape, belief }) => ({ ...shape, weight: belief / keptTotal })),
    clockUnit,
    testSd: first.shape.testSd,
    readingSd: start.error.readingSd * Math.sqrt(first.shape.ownErrorFactor),
    readingShare: start.error.readingShare * Math.sqrt(first.shape.ownErrorFactor),
    renewalSd: renewalSdOf(start),
    way: start.way,
    usualLife: usualLifeOf(start),
    other: null,
    faultShares: first.faultShares,
    rateMean: first.shape.rateMean * perMeter,
    rateSd: first.shape.rateSd * perMeter,
  };
}

const clockReadingOf = (clock: { from: number; power: number; unit: number }, x: number): number =>
  clockReadings({ x: [x] }, clock)[0] as number;

interface FittedShape {
  readonly shape: Omit<WearShape, "weight">;
  readonly logBelief: number;
  readonly faultShares: readonly number[];
}

function* fitShape(
  start: WearStart,
  engines: readonly PoolEngine[],
  { power, clockUnit, share }: { readonly power: number; readonly clockUnit: number; readonly share: number },
): Generator<void, FittedShape> {
  const renewalSd = renewalSdOf(start);
  const clocks = engines.map(({ parts, from }) =>
    parts.own.map((part) => clockReadings(part, { from, power, unit: clockUnit })),
  );
  const own0 = ownStart(start);
  type Own = typeof own0;
  const ownOf = (at: readonly number[]): Own => ({
    ownLevelSd: own0.ownLevelSd * Math.exp(at[0] as number),
    ownRateSd: own0.ownRateSd * Math.exp(at[1] as number),
    ownWander: own0.ownWander * Math.exp(at[2] as number),
    ownErrorFactor: own0.ownErrorFactor * Math.exp(at[3] as number),
  });
  // Cylinders with a fault are a kind of their own: how likely each is one is found first, and it then speaks so much less.
  let belief: number[][] = engines.map(({ parts }) => parts.own.map(() => 1));
  let at: readonly number[] = [0, 0, 0, 0];
  // With no engine to learn from the starting values are the likeliest by themselves.
  const isUntested = engines.length === 0;
  let ownValue = 0;
  let faultShares = priorFaultShares;
  const single = engines.every((e) => e.parts.own.length === 1);
  if (!single && !isUntested) {
    for (let round = 0; round < 2; round++) {
      const found = yield* highestSteps(
        (tried) => {
          const shape = ownOf(tried);
          const prior = ownPrior(shape, renewalSd);
          let sum =
            -0.5 * ((tried[0] as number) / spreadLogSd) ** 2 -
            0.5 * ((tried[1] as number) / spreadLogSd) ** 2 -
            0.5 * ((tried[2] as number) / wanderLogSd) ** 2 -
            0.5 * ((tried[3] as number) / errorLogSd) ** 2;
          for (const [e, { parts }] of engines.entries()) {
            if (parts.own.length === 1) continue;
            for (const [c, part] of parts.own.entries()) {
              const weight = (belief[e] as number[])[c] as number;
              if (weight < 0.05 || part.x.length === 0) continue;
              const course = ownCourse(part, (clocks[e] as number[][])[c] as number[], shape);
              sum += weight * followCourse(course, prior, null).logLikelihood;
            }
          }
          return sum;
        },
        at,
        [0.5, 0.5, 1, 0.3],
        0.15,
      );
      at = found.at;
      const shape = ownOf(at);
      const prior = ownPrior(shape, renewalSd);
      ownValue = 0;
      // What is held beforehand counts as so many cylinders.
      const faults = priorFaultShares.map((share) => share * priorCylinders);
      let all = priorCylinders;
      belief = [];
      for (const [e, { parts }] of engines.entries()) {
        const sound = parts.own.map((part, c) => {
          if (part.x.length < 2 || parts.own.length === 1) return 1;
          const course = ownCourse(part, (clocks[e] as number[][])[c] as number[], shape);
          const weighed = weighAccounts(course, prior, {
            x: part.x,
            heard: part.heard,
            ruled: part.ruled,
            way: start.way,
            span: start.span,
            shares: priorFaultShares,
          });
          ownValue += weighed.logEvidence;
          const accounts = settleAccounts(weighed, null);
          const soundBelief = accounts.find((a) => a.fault === null)?.probability ?? 0;
          for (const { fault, probability } of accounts) {
            const kind = fault === null ? -1 : faultKinds.indexOf(fault.kind);
            if (kind >= 0) faults[kind] = (faults[kind] as number) + probability;
          }
          all += 1;
          return soundBelief;
        });
        belief.push(sound);
        yield;
      }
      faultShares = faults.map((of) => of / all);
    }
  }
  const common = yield* fitCommon(start, engines, { power, clockUnit }, ownOf(at));
  const found = common.shape;
  // The means are themselves known only so well: a new engine differs from them by that much more (Morris 1983).
  const wider = Math.sqrt(1 + 1 / Math.max(1, engines.length));
  return {
    shape: {
      power,
      ...found,
      levelSd: found.levelSd * wider,
      rateSd: found.rateSd * wider,
      ...common.own,
    },
    logBelief: Math.log(share) + beliefTempered * (common.value + ownValue),
    faultShares,
  };
}

function pickEvenly<T>(items: readonly T[], most: number): readonly T[] {
  if (items.length <= most) return items;
  return Array.from({ length: most }, (_, i) => items[Math.floor((i * items.length) / most)] as T);
}
