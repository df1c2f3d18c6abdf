import { type Course, type CoursePrior, type Followed, followCourse } from "./course.ts";
import { logSum } from "./faults.ts";
import { farOffShare } from "./priors.ts";

/**
 * What may lie behind a last test at which all cylinders of an engine read far worse than before: that its errors were
 * large as errors go, that the way it was made spoilt it, or that the engine itself stepped (dust, overheating, seizure;
 * at its first test: that it is worn beyond its sisters). Readings alone cannot part the last two until a further test
 * bears one of them out: both are carried on, and how far off the test lies changes nothing of how they stand, so that a
 * worse reading never makes an engine look better.
 */
export interface CommonAccount {
  readonly followed: Followed;
  readonly probability: number;
  readonly isStep: boolean;
}

/** Of tests, before one is looked at: the engine stepped since the test before. Judgement, as faultShares of a cylinder. */
const steppedShare = 0.04;
/** A step can have begun with one of so many last tests; of older ones the later tests have told already. */
const lastTests = 3;
/** With so many tests before it a course knows itself, and one bad test of many moves nothing (lib/condition/shared-error.ts names it). */
const knowsItself = 3;
/** A course whose surprises never added up to this much is as it was. */
const worthLooking = 2;

/**
 * The accounts of the course that an engine's cylinders have in common; probabilities add up to 1, the course as it was is first.
 *
 * @param spoilt of each test: how likely it was spoilt, before it is looked at; 0: a person takes it as it is, and then it
 *   counts whatever tests came before
 * @param way from a new engine to the limit on the wear scale: how far steps and spoilt tests reach
 */
export function commonAccounts(
  course: Course,
  prior: CoursePrior,
  { spoilt, way }: { readonly spoilt: readonly number[]; readonly way: number },
): readonly CommonAccount[] {
  const asBefore = followCourse(course, prior, null);
  const n = course.clock.length;
  const since = Math.max(0, course.renewed.lastIndexOf(true));
  const beginnings: number[] = [];
  for (let from = Math.max(since, n - lastTests); from < n; from++) {
    const isNew = from === since && since > 0;
    if (!isNew && (from - since < knowsItself || spoilt[from] === 0) && isWorse(course, prior, from)) {
      beginnings.push(from);
    }
  }
  if (beginnings.length === 0 || asBefore.worstRise < worthLooking)
    return [{ followed: asBefore, probability: 1, isStep: false }];
  const last = n - 1;
  const lastSpoilt = spoilt[last] as number;
  const wider = (at: number): Course => ({
    ...course,
    variance: course.variance.map((v, i) => (i === at ? v + way * way : v)),
  });
  const stepped = (from: number): Followed => followCourse({ ...course, step: { at: from, sd: way } }, prior, null);
  const shareOf = (from: number) => (from === 0 ? farOffShare : steppedShare);
  // A last test that reads no worse has no account of having been spoilt, and takes nothing from the course as it was.
  const mayBeSpoilt = lastSpoilt > 0 && beginnings.includes(last);
  const weighed = [
    { followed: asBefore, share: mayBeSpoilt ? 1 - lastSpoilt : 1, isStep: false },
    ...(mayBeSpoilt ? [{ followed: followCourse(wider(last), prior, null), share: lastSpoilt, isStep: false }] : []),
    ...beginnings.map((from) => ({ followed: stepped(from), share: shareOf(from), isStep: true })),
  ].map(({ share, ...of }) => ({ ...of, logWeight: Math.log(share) + of.followed.logLikelihood }));
  const whole = logSum(weighed.map(({ logWeight }) => logWeight));
  return weighed.map(({ logWeight, ...of }) => ({ ...of, probability: Math.exp(logWeight - whole) }));
}

/** Whether the test of this index read worse than the tests before it foretell. */
function isWorse(course: Course, prior: CoursePrior, at: number): boolean {
  const before = followCourse(
    { ...course, clock: course.clock.slice(0, at), level: course.level.slice(0, at) },
    prior,
    null,
  );
  const [level, rate] = before.mean as readonly [number, number];
  return (course.level[at] as number) > level + rate * (course.clock[at] as number);
}
