import { clockAt, type WearClock } from "./clock.ts";
import { type Course, type CoursePrior, type Followed, followCourse } from "./course.ts";
import { isWorthLooking, settleTogether, weighAccounts } from "./faults.ts";
import { assumedStart, type Before, type LifeStart } from "./life-start.ts";
import type { WearObservations } from "./observations.ts";
import type { WearScale } from "./scale.ts";
import { type OwnError, type Part, type TwoParts, twoParts } from "./two-parts.ts";
import type { WearPool, WearShape } from "./types.ts";

/** The parameters of a shape that its common part, and those that its own parts depend on. */
export type CommonShape = Pick<WearShape, "levelMean" | "levelSd" | "rateMean" | "rateSd" | "wander" | "testSd">;
export type OwnShape = Pick<WearShape, "ownLevelSd" | "ownRateSd" | "ownWander" | "ownErrorFactor">;

const courseOf = (part: Part, clock: readonly number[], testSd: number, ownErrorFactor: number): Course => {
  const variance = new Array<number>(clock.length);
  for (let i = 0; i < clock.length; i++) {
    variance[i] =
      (part.testFactor[i] as number) * testSd * testSd +
      (part.ownFactor[i] as number) * ownErrorFactor +
      (part.added[i] as number);
  }
  return { clock, level: part.level, variance, renewed: part.renewed };
};

export const clockReadings = (part: Pick<Part, "x">, clock: WearClock): number[] =>
  part.x.map((x) => clockAt(clock, x));

/** A single cylinder has no part of its own: what cylinders differ by is in what engines differ by. */
const isAlone = (parts: TwoParts) => parts.own.length === 1;

/** What an engine's parts are looked through for faults with. */
export interface EngineLook {
  readonly shape: OwnShape;
  readonly renewalSd: number;
  readonly way: number;
  readonly usualLife: number;
  readonly span: number;
  readonly shares: readonly number[];
}

/**
 * The parts of an engine. Where a cylinder shows signs of a fault they are looked at again with a common part that a
 * fault moves little, and then with every cylinder that may have one out of the common part: a sound one that is left out
 * of it costs little, a faulty one that is left in it would hide its own fault and draw down its siblings.
 */
export function partsOf(
  observations: WearObservations,
  scale: WearScale,
  error: OwnError,
  { shape, renewalSd, way, usualLife, span, shares }: EngineLook,
): TwoParts {
  const none: readonly null[] = Array.from({ length: observations.cylinders }, () => null);
  const even = twoParts(observations, scale, error, none);
  const prior = ownPrior(shape, renewalSd);
  const from = assumedStart(beforeReadings(observations), usualLife);
  const coursesIn = (parts: TwoParts) =>
    parts.own.map((part) =>
      ownCourse(
        part,
        part.x.map((x) => x - from),
        shape,
      ),
    );
  // Most engines show no fault at all, and are done with.
  const isSuspect = coursesIn(even).some((course, c) => {
    return isWorthLooking(followCourse(course, prior, null), even.own[c] as TwoParts["own"][number]);
  });
  if (observations.cylinders === 1 || !isSuspect) return even;
  const first = twoParts(observations, scale, error, null);
  const weighed = coursesIn(first).map((course, c) => {
    const { x, heard, ruled } = first.own[c] as TwoParts["own"][number];
    return weighAccounts(course, prior, { x, heard, ruled, way, span, shares });
  });
  const tests = first.own.map((part) => part.test);
  const faultyFrom = settleTogether(weighed, tests, observations.neighbours).map((accounts, c) => {
    const fault = accounts.find((account) => account.fault !== null)?.fault ?? null;
    return fault === null ? null : (tests[c]?.[fault.from] ?? null);
  });
  return faultyFrom.every((from) => from === null) ? even : twoParts(observations, scale, error, faultyFrom);
}

/** The course that an engine's cylinders have in common. */
export const followCommon = (
  parts: TwoParts,
  clock: readonly number[],
  shape: CommonShape & OwnShape,
  renewalSd: number,
): Followed => followCourse(commonCourse(parts, clock, shape), commonPrior(parts, shape, renewalSd), null);

/** What the cylinders have in common as data. */
export const commonCourse = (parts: TwoParts, clock: readonly number[], shape: CommonShape & OwnShape): Course =>
  courseOf(parts.common, clock, shape.testSd, shape.ownErrorFactor);

/** A course whose readings are believed where a person takes them as they are. */
export const believing = (course: Course, { spoilt }: Pick<Part, "spoilt">): Course =>
  spoilt.includes(0) ? { ...course, believed: spoilt.map((share) => share === 0) } : course;

/** The prior of what the cylinders have in common; of a single cylinder, of all that is known of it. */
export function commonPrior(parts: TwoParts, shape: CommonShape & OwnShape, renewalSd: number): CoursePrior {
  const alone = isAlone(parts);
  return {
    level: shape.levelMean,
    levelSd: alone ? Math.hypot(shape.levelSd, shape.ownLevelSd) : shape.levelSd,
    rate: shape.rateMean,
    rateSd: alone ? Math.hypot(shape.rateSd, shape.ownRateSd) : shape.rateSd,
    wander: shape.wander + (alone ? shape.ownWander : 0),
    renewalSd,
    renewsRate: false,
    tails: alone ? "even" : "lopsided",
  };
}

/** What is known of an engine's use before its first reading. */
export const beforeReadings = ({ origin, originKnown, tests }: WearObservations): Before => ({
  origin,
  originKnown,
  first: tests[0]?.x ?? origin,
});

/** How far each beginning is believed once the engine's common course is seen; adds up to 1. */
export function startBeliefs(
  parts: TwoParts,
  starts: readonly LifeStart[],
  shape: CommonShape & OwnShape & Pick<WearShape, "power">,
  { clockUnit, renewalSd }: Pick<WearPool, "clockUnit" | "renewalSd">,
): readonly number[] {
  const logBeliefs = starts.map(({ from, share }) => {
    const clock = clockReadings(parts.common, { from, power: shape.power, unit: clockUnit });
    return Math.log(share) + followCommon(parts, clock, shape, renewalSd).logLikelihood;
  });
  const best = Math.max(...logBeliefs);
  const beliefs = logBeliefs.map((log) => Math.exp(log - best));
  const total = beliefs.reduce((a, b) => a + b, 0);
  return beliefs.map((belief) => belief / total);
}

/** The prior of a cylinder's own part. */
export const ownPrior = (shape: OwnShape, renewalSd: number): CoursePrior => ({
  level: 0,
  levelSd: shape.ownLevelSd,
  rate: 0,
  rateSd: shape.ownRateSd,
  wander: shape.ownWander,
  renewalSd,
  renewsRate: true,
  tails: "even",
});

/** A cylinder's own course as data: what faults are looked for in. */
export const ownCourse = (part: Part, clock: readonly number[], shape: OwnShape): Course =>
  courseOf(part, clock, 0, shape.ownErrorFactor);
