import { repeatability } from "../repeatability.ts";
import type { MeterUnit } from "../schema/words.ts";
import { median } from "../statistics/quantile.ts";
import { theilSenLine } from "../statistics/theil-sen.ts";
import type { RecentReading } from "./recent.ts";

/**
 * How one cylinder's leakage stands to its siblings', over its tests. Rings wear unevenly: a cylinder may read half as much
 * again as the others from the first test to the last, and that is no event. So what is looked for is the leakage beyond
 * the proportion that it had before.
 */
export interface Parting {
  /** Its leakage as a multiple of the others', before it parted; leans on 1 while there are few tests. */
  readonly ratio: number;
  /** The same over all the tests, as measured. */
  readonly plainRatio: number;
  /** Points of leakage beyond that proportion now; the last two tests, the latest counting double. */
  readonly beyond: number;
  /** Mean since it parted beyond what its own earlier tests alone let expect, without a lean on 1; points. */
  readonly grew: number;
  /** The mean of what is beyond it since it parted, in standard errors. */
  readonly z: number;
  /** Tests since it parted, and before. */
  readonly since: number;
  readonly before: number;
  /** It came within one interval between tests, after tests that were flat or on a line; else it grew over several. */
  readonly sudden: boolean;
  /** Hours, or the distance of as many, from the first of the tests to the last. */
  readonly hours: number;
  /** Points beyond for each 1,000 h, or the distance of as many, from the last test before it parted. */
  readonly perThousandHours: number;
  /** Leakage now. */
  readonly to: number;
}

/** A made-up earlier test at about the watch level in which it was like the others: few tests tell no ratio. (J) */
const alikePercent = 10;
/** Siblings that leaked less before tell no proportion: the cylinder is then held to its distance from them in points. (J) */
const tellingPercent = 4;
const leastRatio = 0.6;
const mostRatio = 2.5;
/** Of what is beyond now, so much was there at the first test after: it came at once. */
const suddenShare = 0.6;
/** How far a working hour takes a vehicle: 30 to 60 km, common practice. */
const perHour: Readonly<Record<MeterUnit, number>> = { h: 1, km: 45, mi: 28 };

interface Point {
  readonly x: number;
  readonly own: number;
  readonly others: number;
}

/**
 * Finds where a cylinder parted from its siblings: the place between two tests that divides them best, by what is beyond
 * the earlier proportion in standard errors of one reading's repeatability. null: fewer than two tests with siblings.
 * `siblings`: the cylinders that it is held against, by number. The order of the readings is latest first.
 */
export function partingOf(
  readings: readonly RecentReading[],
  meterUnit: MeterUnit,
  isSibling: (cylinder: number) => boolean,
): Parting | null {
  const points = readings.flatMap((reading): Point[] => {
    const others = reading.test.test.readings.flatMap(({ cylinder, value }) => (isSibling(cylinder) ? [value] : []));
    return others.length === 0 ? [] : [{ x: reading.x, own: reading.value, others: median(others) }];
  });
  let best: Parting | null = null;
  for (let since = 1; since < points.length; since++) {
    const parting = partingAt(points, since, meterUnit);
    if (best === null || parting.z > best.z) best = parting;
  }
  return best;
}

function partingAt(points: readonly Point[], since: number, meterUnit: MeterUnit): Parting {
  const [after, before] = [points.slice(0, since), points.slice(since)];
  const sum = (some: readonly Point[], of: (point: Point) => number) => some.reduce((total, p) => total + of(p), 0);
  const plain = (sum(before, (p) => p.own) + alikePercent) / (sum(before, (p) => p.others) + alikePercent);
  const ratio = Math.min(mostRatio, Math.max(leastRatio, plain));
  const beyond = after.map(({ own, others }) => own - ratio * others);
  const [latest, next = latest] = beyond as [number, number?];
  const noise = Math.sqrt(
    sum(after, ({ own, others }) => {
      const expected = ratio * others;
      return ownVariance(Math.max(own, expected)) + 0.5 * ratio ** 2 * ownVariance(others);
    }) / since,
  );
  const z =
    beyond.reduce((total, value) => total + value, 0) /
    since /
    (noise * Math.sqrt(1 / since + 1 / (before.length + 1)));
  const [now, last, first] = [points[0] as Point, before[0] as Point, beyond.at(-1) as number];
  const size = (2 * latest + (next as number)) / 3;
  const hours = (now.x - last.x) / perHour[meterUnit];
  return {
    ratio,
    plainRatio:
      sum(points, (p) => p.own) /
      Math.max(
        1,
        sum(points, (p) => p.others),
      ),
    beyond: since === 1 ? latest : size,
    grew: grownSince(after, before),
    z,
    since,
    before: before.length,
    sudden:
      first >= suddenShare * Math.max(...beyond) &&
      isStep(
        before.map(({ x, own, others }) => ({ x, y: own - ratio * others })),
        { x: (after.at(-1) as Point).x, y: first },
        Math.sqrt(ownVariance(ratio * last.others) + 0.5 * ratio ** 2 * ownVariance(last.others)),
      ),
    hours: ((points[0] as Point).x - (points.at(-1) as Point).x) / perHour[meterUnit],
    perThousandHours: hours > 0 ? (1000 * latest) / hours : Number.POSITIVE_INFINITY,
    to: now.own,
  };
}

/**
 * The made-up test keeps a ratio from being told by few, but for a cylinder that always stood far above its siblings it would
 * tell a step that no test saw: so what is beyond must also be beyond its own earlier tests.
 */
function grownSince(after: readonly Point[], before: readonly Point[]): number {
  const mean = (some: readonly Point[], of: (point: Point) => number) =>
    some.reduce((sum, point) => sum + of(point), 0) / some.length;
  const [own, others] = [mean(before, (p) => p.own), mean(before, (p) => p.others)];
  const expected = (p: Point) => (others < tellingPercent ? p.others + own - others : (p.others * own) / others);
  return mean(after, (p) => p.own - expected(p));
}

/** A step leaves what was foretold by so many standard deviations of one reading, and by so much; points or per cent. */
const stepDeviations = 3;
const leastStep = 5;
/** A reading before it that stands so much above those before that has begun to rise already. */
const leastRise = 2;

/**
 * Whether a reading left its place in one step: at least two tests before it tell that place, they lie flat or on a line, and
 * it lies well beyond what that line foretells and beyond repeatability. A first test can show no step; three that rise one
 * after the other are none. `before`: latest first; `sd`: of one reading beside its siblings.
 */
function isStep(
  before: readonly { readonly x: number; readonly y: number }[],
  first: { readonly x: number; readonly y: number },
  sd: number,
): boolean {
  const [last, ...earlier] = before;
  if (last === undefined || earlier.length === 0) return false;
  const error = sd * Math.sqrt(1 + 1 / earlier.length);
  if (last.y - median(earlier.map(({ y }) => y)) > Math.max(leastRise, error)) return false;
  const ascending = before.toReversed();
  const line = theilSenLine(
    ascending.map(({ x }) => x),
    ascending.map(({ y }) => y),
  );
  const flat = median(before.map(({ y }) => y));
  const foretold = line === null ? flat : Math.max(flat, line.intercept + line.slope * first.x);
  return first.y - foretold >= Math.max(leastStep, stepDeviations * sd * Math.sqrt(1 + 1 / before.length));
}

/** How one cylinder's compression fell beside its siblings', over its tests; in per cent of theirs. */
export interface Falling {
  /** Per cent below its place beside them, as it was before. */
  readonly beyond: number;
  /** Per cent beside them that it lost from the first of these tests to the last. */
  readonly inAll: number;
  /** Mean since it fell less its mean before, by its own tests alone; per cent, and in standard errors. */
  readonly fell: number;
  readonly z: number;
  readonly since: number;
  readonly before: number;
  readonly sudden: boolean;
  /** Per cent for each 1,000 h, or the distance of as many, from the last test before it fell. */
  readonly perThousandHours: number;
}

/** Of one reading beside the middle of its siblings', in per cent. */
const compressionSd = 100 * repeatability("compression-dry", 1).own * Math.sqrt(1.5);

/**
 * The same of compression: where a cylinder's share below its siblings' median changed most, in standard errors. A made-up
 * earlier test in which it was like them keeps few tests from telling a place; it may only take evidence away, for a cylinder
 * may always have stood below them, and that is no fall. null: fewer than two tests with siblings.
 */
export function fallingOf(
  readings: readonly RecentReading[],
  meterUnit: MeterUnit,
  isSibling: (cylinder: number) => boolean,
): Falling | null {
  const points = readings.flatMap((reading) => {
    const others = reading.test.test.readings.flatMap(({ cylinder, value }) => (isSibling(cylinder) ? [value] : []));
    const middle = others.length === 0 ? 0 : median(others);
    return middle <= 0 ? [] : [{ x: reading.x, below: 100 * (1 - reading.value / middle) }];
  });
  let best: Falling | null = null;
  let most = Number.NEGATIVE_INFINITY;
  for (let since = 1; since < points.length; since++) {
    const [after, before] = [points.slice(0, since), points.slice(since)];
    const total = before.reduce((sum, p) => sum + p.below, 0);
    const own = total / before.length;
    const leaning = total / (before.length + 1);
    const level = after.reduce((sum, p) => sum + p.below, 0) / since;
    const error = compressionSd * Math.sqrt(1 / since + 1 / (before.length + 1));
    if ((level - leaning) / error <= most) continue;
    most = (level - leaning) / error;
    const place = Math.max(own, leaning);
    const beyond = after.map(({ below }) => below - place);
    const [latest, next = latest] = beyond as [number, number?];
    const hours = ((points[0]?.x ?? 0) - (before[0]?.x ?? 0)) / perHour[meterUnit];
    best = {
      beyond: since === 1 ? latest : (2 * latest + (next as number)) / 3,
      inAll: (points[0]?.below ?? 0) - (points.at(-1)?.below ?? 0),
      fell: level - own,
      z: (level - place) / error,
      since,
      before: before.length,
      sudden:
        (beyond.at(-1) as number) >= suddenShare * Math.max(...beyond) &&
        isStep(
          before.map(({ x, below }) => ({ x, y: below })),
          { x: (after.at(-1) as (typeof points)[number]).x, y: (after.at(-1) as (typeof points)[number]).below },
          compressionSd,
        ),
      perThousandHours: hours > 0 ? (1000 * latest) / hours : Number.POSITIVE_INFINITY,
    };
  }
  return best;
}

/** Fell for good: beyond what two or three readings wander, and as much as a leak that matters costs. */
export const hasFallen = ({ z, beyond, fell }: Falling): boolean => z >= 2.5 && beyond >= 5 && fell >= 5;

const ownVariance = (level: number): number => repeatability("leak-down", level).own ** 2;

/** Parted for good: beyond what two or three readings wander, and enough to matter, by its own tests as well. */
export const hasParted = ({ z, beyond, grew }: Parting): boolean => z >= 2.5 && beyond >= 5 && grew >= 5;
