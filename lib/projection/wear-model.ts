import { withOther } from "./beside.ts";
import { clockAt, type WearClock } from "./clock.ts";
import { type CommonAccount, commonAccounts } from "./common-accounts.ts";
import type { Course, Followed } from "./course.ts";
import {
  beforeReadings,
  believing,
  clockReadings,
  commonCourse,
  commonPrior,
  followCommon,
  ownCourse,
  ownPrior,
  partsOf,
  startBeliefs,
} from "./courses.ts";
import {
  type Account,
  faultClockAt,
  faultHours,
  settleTogether,
  type WeighedAccounts,
  weighAccounts,
} from "./faults.ts";
import { type LifeStart, lifeStarts } from "./life-start.ts";
import type { WearObservations } from "./observations.ts";
import { thousandHoursOf } from "./priors.ts";
import type { WearScale } from "./scale.ts";
import type { TwoParts } from "./two-parts.ts";
import type { WearBranch, WearPool, WearShape } from "./types.ts";

/**
 * The wear of one engine under its model's pool: for each shape of wear over use that is still believed, the course that
 * the cylinders have in common and each cylinder's own beside it (two-parts.ts), and for each cylinder the accounts of a
 * fault that are credible (faults.ts). Level and rate of a cylinder are the sums of its parts, which are independent.
 *
 * Where nobody knows when the life of rings and bores began, several beginnings are tried (life-start.ts). The clock of a
 * branch starts with that life, or with the fault where there is one: what the wear adds to a fault's growth is small beside it, and is taken as even over the next stretch of use.
 */
export interface EngineFit {
  /** For each cylinder, its branches now; probabilities add up to 1. */
  readonly cylinders: readonly CylinderFit[];
  /** Mean share of a cylinder's uncertainty, some use ahead, that it has in common with its siblings; 0 for one cylinder. */
  readonly sharedUncertainty: number;
  /** How far it is believed that all cylinders stepped at the last tests, where few tests came before (common-accounts.ts). */
  readonly stepped: number;
}

export interface CylinderFit {
  readonly branches: readonly WearBranch[];
  /** Share of what is said of its rate that its own engine's tests said, and not its sisters: 0 to 1. */
  readonly ownShare: number;
  /** Of a cylinder whose head was renewed since its last reading: the wear that goes on, without a fault; else empty. */
  readonly carried: readonly WearBranch[];
  /** Faults that are credible, and the wear meters of the tests between which they began. */
  readonly faults: readonly { readonly probability: number; readonly after: number | null; readonly by: number }[];
}

/** The parts of an engine under its model's pool. The pool's factor on the readings' own errors is in them already. */
export const partsUnder = (observations: WearObservations, pool: WearPool, scale: WearScale): TwoParts =>
  partsOf(
    observations,
    scale,
    { readingSd: pool.readingSd, readingShare: pool.readingShare },
    {
      shape: { ...(pool.shapes[0] as WearShape), ownErrorFactor: 1 },
      renewalSd: pool.renewalSd,
      way: pool.way,
      usualLife: pool.usualLife,
      span: thousandHoursOf[pool.meterUnit],
      shares: pool.faultShares,
    },
  );

/**
 * @param other the engine's parts by the other measure, where they are to say something of this one
 * @param own its parts by this one, where they are known already
 */
export function fitEngineWear(
  observations: WearObservations,
  pool: WearPool,
  xNow: number,
  scale: WearScale,
  other: TwoParts | null = null,
  own: TwoParts = partsUnder(observations, pool, scale),
): EngineFit {
  const parts = joined(own, other, pool);
  const span = thousandHoursOf[pool.meterUnit];
  const starts = credibleStarts(parts, observations, pool);
  const fits = starts.flatMap((start) =>
    pool.shapes.map((shape) => fitShape(parts, observations, pool, { shape, start }, xNow)),
  );
  const best = Math.max(...fits.map((fit) => fit.logBelief));
  const beliefs = fits.map((fit) => Math.exp(fit.logBelief - best));
  const total = beliefs.reduce((a, b) => a + b, 0);
  let shared = 0;
  const cylinders = Array.from({ length: observations.cylinders }, (_, c): CylinderFit => {
    const branches: WearBranch[] = [];
    const carried: WearBranch[] = [];
    const isRenewed = observations.segments.some(
      (of) => of.cylinder === c + 1 && of.current && of.begunBy === "top-end" && of.ownTests === 0,
    );
    const faults: { probability: number; after: number | null; by: number }[] = [];
    let ownShare = 0;
    for (const [i, fit] of fits.entries()) {
      const belief = (beliefs[i] as number) / total;
      const own = fit.own[c];
      if (own === undefined || belief < 0.02) continue;
      ownShare += belief * own.ownShare;
      shared += (belief * own.shared) / observations.cylinders;
      for (const account of own.accounts) {
        for (const { followed, probability } of fit.commons) {
          if (probability < leastCommonBelief) continue;
          const branch = (of: Account): WearBranch => ({
            ...branchOf(fit, followed, of, own.lastOwn, parts.own.length === 1, xNow, span),
            probability: belief * account.probability * probability,
          });
          branches.push(branch(account));
          if (isRenewed) carried.push(branch({ ...account, fault: null }));
        }
        if (account.fault === null) continue;
        const { x } = parts.own[c] as TwoParts["own"][number];
        const by = x[account.fault.from] as number;
        // Both measures of one day are read at one place: what began between them began before that day.
        faults.push({ probability: belief * account.probability, after: x.findLast((at) => at < by) ?? null, by });
      }
    }
    return { branches: addedUpToOne(branches), carried: addedUpToOne(carried), ownShare, faults };
  });
  const stepped = fits.reduce(
    (sum, fit, i) =>
      sum + ((beliefs[i] as number) / total) * fit.commons.reduce((of, a) => of + (a.isStep ? a.probability : 0), 0),
    0,
  );
  return {
    cylinders,
    stepped,
    sharedUncertainty: observations.cylinders === 1 ? 0 : Math.min(0.98, Math.max(0, shared)),
  };
}

/** Its own parts with what the other measure says of each cylinder, where the pool has learnt how the two go together. */
function joined(parts: TwoParts, other: TwoParts | null, { other: beside }: WearPool): TwoParts {
  if (other === null || beside === null || parts.own.length === 1) return parts;
  const own = parts.own.map((part, c) => {
    const of = other.own[c];
    return of === undefined || part.x.length === 0 ? part : withOther(part, of, beside);
  });
  return { ...parts, own };
}

function addedUpToOne(branches: readonly WearBranch[]): readonly WearBranch[] {
  const whole = branches.reduce((sum, b) => sum + b.probability, 0);
  return branches.map((b) => ({ ...b, probability: b.probability / whole }));
}

/** Beginnings of its life that the engine's common course leaves credible, under the model's likeliest shape. */
function credibleStarts(parts: TwoParts, observations: WearObservations, pool: WearPool): readonly LifeStart[] {
  const starts = lifeStarts(beforeReadings(observations), pool.usualLife);
  if (starts.length === 1) return starts;
  const shape = { ...(pool.shapes[0] as WearShape), ownErrorFactor: 1 };
  const beliefs = startBeliefs(parts, starts, shape, pool);
  return starts.filter((_, i) => (beliefs[i] as number) >= leastStartBelief);
}

/** Less credible accounts of what the cylinders have in common are left out. */
const leastCommonBelief = 0.02;
/** Less credible beginnings of a life are left out. */
const leastStartBelief = 0.05;

interface ShapeFit {
  readonly shape: WearShape;
  readonly clock: WearClock;
  readonly commons: readonly CommonAccount[];
  readonly lastCommon: number;
  readonly own: readonly {
    readonly accounts: readonly Account[];
    readonly lastOwn: number;
    readonly ownShare: number;
    readonly shared: number;
  }[];
  readonly logBelief: number;
}

function fitShape(
  parts: TwoParts,
  { neighbours }: WearObservations,
  pool: WearPool,
  { shape, start: { from, share } }: { readonly shape: WearShape; readonly start: LifeStart },
  xNow: number,
): ShapeFit {
  const clock: WearClock = { from, power: shape.power, unit: pool.clockUnit };
  // The parts' own errors are reckoned with the pool's factor in them already.
  const plain = { ...shape, ownErrorFactor: 1 };
  const span = thousandHoursOf[pool.meterUnit];
  const commonClock = clockReadings(parts.common, clock);
  const alone = parts.own.length === 1;
  const ofAll = commonPrior(parts, plain, pool.renewalSd);
  const commonly = believing(commonCourse(parts, commonClock, plain), parts.common);
  const commons = alone
    ? [{ followed: followCommon(parts, commonClock, plain, pool.renewalSd), probability: 1, isStep: false }]
    : commonAccounts(commonly, ofAll, { spoilt: parts.common.spoilt, way: pool.way });
  const common = (commons[0] as CommonAccount).followed;
  let logBelief = Math.log(shape.weight) + Math.log(share) + (alone ? 0 : common.logLikelihood);
  const ahead = clockAt(clock, xNow + span);
  const prior = alone ? ofAll : ownPrior(plain, pool.renewalSd);
  const courses = parts.own.map((part) =>
    alone ? commonly : believing(ownCourse(part, clockReadings(part, clock), plain), part),
  );
  const weighed = parts.own.map((part, c) =>
    weighAccounts(courses[c] as Course, prior, {
      x: part.x,
      heard: part.heard,
      ruled: part.ruled,
      way: pool.way,
      span,
      shares: pool.faultShares,
    }),
  );
  const settled = settleTogether(
    weighed,
    parts.own.map((part) => part.test),
    neighbours,
  );
  const own = settled.map((accounts, c) => {
    logBelief += (weighed[c] as WeighedAccounts).logEvidence;
    const course = courses[c] as Course;
    const { followed } = accounts[0] as Account;
    const n = followed.size;
    const of = (f: Followed) =>
      (f.covariance[0] as number) +
      2 * ahead * (f.covariance[1] as number) +
      ahead * ahead * (f.covariance[f.size + 1] as number);
    const commonRate = alone ? 0 : (common.covariance[3] as number);
    const before = (alone ? 0 : shape.rateSd ** 2) + prior.rateSd ** 2;
    return {
      accounts,
      lastOwn: course.clock.at(-1) ?? 0,
      ownShare: Math.max(0, 1 - (commonRate + (followed.covariance[n + 1] as number)) / before),
      shared: alone ? 0 : of(common) / (of(common) + of(followed)),
    };
  });
  return { shape, clock, commons, lastCommon: commonClock.at(-1) ?? 0, own, logBelief };
}

/** How far ahead, in use that wears as 1,000 h does, the even wear beside a fault is reckoned. */
const besideFault = 0.5;

function branchOf(
  fit: ShapeFit,
  common: Followed,
  { followed, fault }: Account,
  lastOwn: number,
  alone: boolean,
  xNow: number,
  span: number,
): Omit<WearBranch, "probability"> {
  const { clock, shape } = fit;
  const now = clockAt(clock, xNow);
  const n = followed.size;
  const f = (a: number, b: number) => followed.covariance[a * n + b] as number;
  const c = (a: number, b: number) => (alone ? 0 : (common.covariance[2 * a + b] as number));
  const m = (a: number) => (alone ? 0 : (common.mean[a] as number));
  const own = (a: number) => followed.mean[a] as number;
  const wander = shape.wander + shape.ownWander;
  // Since the last test the true level has gone on wandering about its line.
  const wandered = alone
    ? wander * Math.max(0, now - fit.lastCommon)
    : shape.wander * Math.max(0, now - fit.lastCommon) + shape.ownWander * Math.max(0, now - lastOwn);
  const level = m(0) + m(1) * now + own(0) + own(1) * now;
  const levelVariance =
    c(0, 0) + 2 * now * c(0, 1) + now * now * c(1, 1) + f(0, 0) + 2 * now * f(0, 1) + now * now * f(1, 1) + wandered;
  const rate = m(1) + own(1);
  const rateVariance = c(1, 1) + f(1, 1);
  const covariance = c(0, 1) + now * c(1, 1) + f(0, 1) + now * f(1, 1);
  const isFault = fault !== null;
  if (!isFault) return { level, rate, levelVariance, rateVariance, covariance, wander, clock, now: xNow, isFault };

  const faultUnit = faultHours * span;
  const faultClock: WearClock = { from: fault.began, power: fault.kind.power, unit: faultUnit };
  const grown = faultClockAt(fault.kind.power, span, fault.began, xNow);
  // What the wear's clock goes on for each unit of the fault's.
  const stretch = besideFault * span;
  const turns =
    (clockAt(clock, xNow + stretch) - now) /
    Math.max(1e-9, clockAt(faultClock, xNow + stretch) - clockAt(faultClock, xNow));
  const onLevel = [1, now, 1, grown];
  const onRate = [0, turns, 0, 1];
  const quadratic = (p: readonly number[], q: readonly number[]) => {
    let sum = 0;
    for (let a = 0; a < 4; a++) for (let b = 0; b < 4; b++) sum += (p[a] as number) * (q[b] as number) * f(a, b);
    return sum;
  };
  return {
    level: level + own(2) + own(3) * grown,
    rate: turns * rate + own(3),
    levelVariance: c(0, 0) + 2 * now * c(0, 1) + now * now * c(1, 1) + quadratic(onLevel, onLevel) + wandered,
    rateVariance: turns * turns * c(1, 1) + quadratic(onRate, onRate),
    covariance: turns * (c(0, 1) + now * c(1, 1)) + quadratic(onLevel, onRate),
    wander: turns * wander,
    clock: faultClock,
    now: xNow,
    isFault,
  };
}
