import { worseSign } from "../condition/series.ts";
import {
  type BandPoint,
  type ComparedModel,
  type CylinderRate,
  figures,
  type ModelComparison,
  type ModelRates,
  origins,
  type SisterBand,
  type UnitStanding,
  type WearCourse,
} from "../schema/comparison.ts";
import { fastestOf, rateGroups } from "./rates.ts";
import { runsOf } from "./runs.ts";
import { fewestSisters, sisterBand } from "./sister-band.ts";

/** Up to here a unit's band is made of the others alone; in larger fleets one of them moves no quantile by much. */
const fewNeighbours = 40;
/** So many are kept; a page lists the first of them. */
const mostListed = 2_000;

/** What the sisters of one model, measure and meter unit say together, and how fast each declines; null: there are none. */
export function compareModel(
  courses: readonly WearCourse[],
): { readonly comparison: ModelComparison; readonly rates: ModelRates } | null {
  const first = courses[0];
  if (first === undefined) return null;
  const { engineModel, measure, meterUnit, modelName, limit, plan, watch, cylinders } = first;
  const bands = origins.flatMap((origin) => figures.map((figure) => sisterBand(courses, origin, figure)));
  const standings = unitStandings(courses, bands);
  const standsOut = (s: UnitStanding) => s.fast || s.beyondBand;
  const standingOut = standings.filter(standsOut).map(({ unit }) => unit);
  const compared: ComparedModel = { engineModel, measure, meterUnit, modelName, units: courses.length, standingOut };
  return {
    comparison: {
      ...compared,
      ...{ limit, plan, watch, cylinders },
      bands: bands.filter((band) => band.engines > 0),
      standings: standings.slice(0, mostListed),
    },
    rates: {
      ...compared,
      rates: { weakest: rateGroups(courses, "weakest"), middle: rateGroups(courses, "middle") },
    },
  };
}

/**
 * How each unit with a rate of its own stands beside its sisters, those that stand out first, then by speed. A unit is
 * fast if its fastest cylinder loses more than that of at least 90 % of its sisters (5 or more of them), and its rate's
 * lower bound (P10) more than their median: in every fleet some unit is the fastest, and that alone says nothing.
 */
function unitStandings(courses: readonly WearCourse[], bands: readonly SisterBand[]): UnitStanding[] {
  const rated = courses.flatMap((course) => {
    const fastest = fastestOf(course);
    return fastest === null ? [] : [{ course, fastest, speed: worseSign[course.measure] * fastest.perThousand }];
  });
  const speeds = rated.map(({ speed }) => speed).toSorted((a, b) => a - b);
  const whole = bands.find((b) => b.origin === "new" && b.figure === "weakest")?.stretches ?? [];
  // In a small fleet the unit itself would make much of the edge that it is held against.
  const bandBeside = (course: WearCourse) =>
    courses.length > fewNeighbours
      ? whole
      : sisterBand(
          courses.filter((other) => other !== course),
          "new",
          "weakest",
        ).stretches;
  const standings = rated.map(({ course, fastest, speed }): UnitStanding & { readonly speed: number } => {
    const sisters = speeds.length - 1;
    const slower = lowerThan(speeds, speed);
    const fast =
      sisters >= fewestSisters &&
      slower >= 0.9 * sisters &&
      slowestLikely(course, fastest) > medianWithout(speeds, slower);
    return {
      unit: course.unit,
      depot: course.depot,
      fastest,
      sisters,
      slower,
      fast,
      beyondBand: isBeyond(course, bandBeside(course)),
      speed,
    };
  });
  const rank = (s: UnitStanding) => (s.fast ? 0 : s.beyondBand ? 1 : 2);
  return standings
    .toSorted((a, b) => rank(a) - rank(b) || b.speed - a.speed)
    .map(({ speed: _speed, ...standing }) => standing);
}

/** The end of the rate's range that is kinder to the unit, as a speed of decline. */
const slowestLikely = ({ measure }: WearCourse, { p10, p90 }: CylinderRate): number =>
  measure === "leak-down" ? p10 : -p90;

/** Median of sorted values but for the one at `left`. */
function medianWithout(sorted: readonly number[], left: number): number {
  const at = (rank: number) => sorted[rank < left ? rank : rank + 1] as number;
  const others = sorted.length - 1;
  return (at((others - 1) >> 1) + at(others >> 1)) / 2;
}

function lowerThan(sorted: readonly number[], value: number): number {
  const at = sorted.findIndex((v) => v >= value);
  return at < 0 ? sorted.length : at;
}

/**
 * One reading beyond the band may be the test's own fault; two in a row are told. By chance alone some 2 to 6 in 100 units
 * of a fleet that wears alike read so: it is told as what was read, not as a fault. A cylinder that was repaired and not
 * read since tells nothing of now, so then nothing is told.
 */
function isBeyond(course: WearCourse, stretches: readonly (readonly BandPoint[])[]): boolean {
  const sign = worseSign[course.measure];
  const isReadSince = (cylinder: number) => course.lives.some((life) => life.cylinder === cylinder && life.current);
  if (!course.lives.every(({ cylinder }) => isReadSince(cylinder))) return false;
  const run = runsOf(course, "new", "weakest").at(-1);
  if (run?.compared !== true) return false;
  const last = run.points.filter(([, , weight]) => weight > 0).slice(-2);
  return (
    last.length === 2 &&
    last.every(([x, level]) => {
      const edge = edgeAt(stretches, x, sign > 0 ? "p90" : "p10");
      return edge !== null && sign * level > sign * edge;
    })
  );
}

/** The band's edge at `x`; a unit that has run further than its sisters stands beside none. */
function edgeAt(stretches: readonly (readonly BandPoint[])[], x: number, edge: "p10" | "p90"): number | null {
  for (const stretch of stretches) {
    const after = stretch.findIndex((point) => point.x >= x);
    const [a, b] = [stretch[after - 1], stretch[after]];
    if (b?.x === x) return b[edge];
    if (a !== undefined && b !== undefined) return a[edge] + ((x - a.x) / (b.x - a.x)) * (b[edge] - a[edge]);
  }
  return null;
}
