import { worseSign } from "../condition/series.ts";
import type { CourseLife, CoursePoint, Figure, Origin, WearCourse } from "../schema/comparison.ts";
import { median } from "../statistics/quantile.ts";

/** A line of one engine, or of one of its cylinders, over the meter since it was new or since a repair. */
export interface Run {
  /** null: the engine as a whole. */
  readonly cylinder: number | null;
  /** false: readings after a later repair, shown but not compared. */
  readonly compared: boolean;
  /** Ascending by x, one a meter reading; weight 0: kept, not used. */
  readonly points: readonly CoursePoint[];
}

/** An engine counts at a test if so much of the cylinders concerned was measured. */
const leastShare = 0.5;

/**
 * The runs of a course, counted from `origin`. `figure`: the weakest of the cylinders measured at each test, the middle of
 * them (median), or a run for each cylinder; the weakest of several is told of the sisters in the same way, so that like
 * meets like.
 *
 * Since new: the readings up to the engine's first repair are compared (of `each`, those up to the cylinder's own); what
 * follows over the same meter is told as not to be. Since a repair: each such repair begins a run of the cylinders that it
 * renewed.
 */
export function runsOf(course: WearCourse, origin: Origin, figure: Figure): Run[] {
  const begun = course.lives.filter((life) => life.begunBy === origin);
  if (begun.length === 0) return [];
  const isSinceNew = origin === "new";
  if (figure === "each") {
    return (isSinceNew ? course.lives : begun).map(({ cylinder, begunBy, fromX, points }) => ({
      cylinder,
      compared: begunBy === origin,
      // The wear meter counts from new already.
      points: since(isSinceNew ? 0 : fromX, onePerX(points)),
    }));
  }
  const starts = isSinceNew ? betweenRepairs(course.lives) : byRepair(begun);
  return starts.flatMap(({ fromX, compared, lives }) => {
    const points = togetherPoints(course, lives, figure);
    return points.length === 0 ? [] : [{ cylinder: null, compared, points: since(fromX, points) }];
  });
}

interface RunStart {
  readonly fromX: number;
  readonly compared: boolean;
  readonly lives: readonly CourseLife[];
}

const byRepair = (begun: readonly CourseLife[]): RunStart[] =>
  [...new Set(begun.map((life) => life.fromX))].map((fromX) => ({
    fromX,
    compared: true,
    lives: begun.filter((life) => life.fromX === fromX),
  }));

/** The engine's readings parted at every repair of any of its cylinders. */
function betweenRepairs(lives: readonly CourseLife[]): RunStart[] {
  const repairs = [...new Set(lives.flatMap((l) => (l.begunBy === "new" ? [] : [l.fromX])))].toSorted((a, b) => a - b);
  return [...repairs, Infinity].map((_, part) => ({
    fromX: 0,
    compared: part === 0,
    lives: lives.map((life) => ({
      ...life,
      // A reading at a repair's own meter reading was made after it if its life began there, else before.
      points: life.points.filter(([x]) => repairs.filter((at) => at < x || at === life.fromX).length === part),
    })),
  }));
}

function since(fromX: number, points: readonly CoursePoint[]): CoursePoint[] {
  return points.map(([x, level, weight]) => [x - fromX, level, weight]);
}

/** One value for each test, of the readings that count; of those that do not where nothing else was read. */
function togetherPoints(course: WearCourse, lives: readonly CourseLife[], figure: "weakest" | "middle"): CoursePoint[] {
  const sign = worseSign[course.measure];
  const byX = new Map<number, CoursePoint[]>();
  for (const point of lives.flatMap((life) => life.points)) {
    const others = byX.get(point[0]);
    if (others === undefined) byX.set(point[0], [point]);
    else others.push(point);
  }
  const cylinders = new Set(lives.map((life) => life.cylinder)).size;
  const points = [...byX].flatMap(([x, all]): CoursePoint[] => {
    const counted = all.filter(([, , weight]) => weight > 0);
    const used = counted.length > 0 ? counted : all;
    if (used.length < leastShare * cylinders) return [];
    const levels = used.map(([, level]) => level);
    const level = figure === "middle" ? median(levels) : sign * Math.max(...levels.map((l) => sign * l));
    return [[x, level, counted.length > 0 ? Math.max(...counted.map(([, , weight]) => weight)) : 0]];
  });
  return points.toSorted((a, b) => a[0] - b[0]);
}

/** Of several readings at one meter reading (a repeat), the one of the highest weight, the later of equals. */
function onePerX(points: readonly CoursePoint[]): CoursePoint[] {
  const byX = new Map<number, CoursePoint>();
  for (const point of points) {
    const known = byX.get(point[0]);
    if (known === undefined || point[2] >= known[2]) byX.set(point[0], point);
  }
  return [...byX.values()].toSorted((a, b) => a[0] - b[0]);
}

/** The readings of a run that count, as two lists: what many levels are asked of. */
export interface Line {
  /** Ascending; two at least, the last beyond the first. */
  readonly xs: readonly number[];
  readonly levels: readonly number[];
}

/** null: fewer than two meter readings count, so there is nothing between them. */
export function lineOf({ points }: Pick<Run, "points">): Line | null {
  const counted = points.filter(([, , weight]) => weight > 0);
  const [first, last] = [counted[0]?.[0], counted.at(-1)?.[0]];
  if (first === undefined || last === undefined || last <= first) return null;
  return { xs: counted.map(([x]) => x), levels: counted.map(([, level]) => level) };
}

/** Level of the line at `x`, straight between the readings on either side; null: not between two of them. */
export function levelAt({ xs, levels }: Line, x: number): number | null {
  const after = xs.findIndex((at) => at >= x);
  if (after < 0) return null;
  const [to, high] = [xs[after] as number, levels[after] as number];
  if (to === x) return high;
  const [from, low] = [xs[after - 1], levels[after - 1]];
  return from === undefined || low === undefined ? null : low + ((x - from) / (to - from)) * (high - low);
}
