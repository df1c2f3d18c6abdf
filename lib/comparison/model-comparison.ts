import { worseSign } from "../condition/series.ts";
import {
  type BandPoint,
  type ComparedModel,
  type CoursePoint,
  type CylinderRate,
  figures,
  type ModelComparison,
  type ModelRates,
  origins,
  type UnitStanding,
  type WearCourse,
} from "../schema/comparison.ts";
import { type EngineRate, engineRate, fastestOf, rateGroups } from "./rates.ts";
import { runsOf } from "./runs.ts";
import { type EngineLines, engineLines, fewestSisters, type MadeBand, makeBand, placeIn } from "./sister-band.ts";

/** Up to here a unit's band is made of the others alone; in larger fleets one of them moves no quantile by much. */
const fewNeighbours = 40;
/** So many are kept; a page lists the first of them. */
const mostListed = 2_000;

const bandKinds = origins.flatMap((origin) => figures.map((figure) => ({ origin, figure })));
const isWhole = ({ origin, figure }: (typeof bandKinds)[number]) => origin === "new" && figure === "weakest";
const wholePlace = bandKinds.findIndex(isWhole);

/** What a comparison takes of one course; it hangs on that course alone. */
export interface Sister extends Omit<WearCourse, "lives" | "rates" | "engine" | "xNow"> {
  /** By `bandKinds`; null: it has no course of this kind. */
  readonly lines: readonly (EngineLines | null)[];
  readonly fastest: CylinderRate | null;
  readonly rates: Readonly<Record<"weakest" | "middle", EngineRate | null>>;
  /** Its last two readings since new, of the weakest cylinder; null: they tell nothing of now. */
  readonly last: readonly CoursePoint[] | null;
}

export function sisterOf(course: WearCourse): Sister {
  const { lives: _lives, rates: _rates, engine: _engine, xNow: _xNow, ...of } = course;
  return {
    ...of,
    lines: bandKinds.map(({ origin, figure }) => engineLines(course, origin, figure)),
    fastest: fastestOf(course),
    rates: { weakest: engineRate(course, "weakest"), middle: engineRate(course, "middle") },
    last: lastSinceNew(course),
  };
}

/** A comparison with what it was made from, so that the next one need only look at what changed. */
export interface ModelCompared {
  readonly sisters: readonly Sister[];
  readonly bands: readonly MadeBand[];
  readonly comparison: ModelComparison;
  readonly rates: ModelRates;
}

/**
 * What the sisters of one model, measure and meter unit say together, and how fast each declines; null: there are none.
 *
 * @param sisters ascending by unit
 * @param before the comparison of these sisters with some others, by their identity: it spares what did not change. What is
 * made is the same to the last digit without it.
 */
export function compareSisters(sisters: readonly Sister[], before: ModelCompared | null = null): ModelCompared | null {
  const first = sisters[0];
  if (first === undefined) return null;
  const { engineModel, measure, meterUnit, modelName, limit, plan, watch, cylinders } = first;
  const bands = bandsOf(sisters, before);
  const standings = unitStandings(sisters, bands);
  const standsOut = (s: UnitStanding) => s.fast || s.beyondBand;
  const standingOut = standings.filter(standsOut).map(({ unit }) => unit);
  const compared: ComparedModel = { engineModel, measure, meterUnit, modelName, units: sisters.length, standingOut };
  const ratesOf = (figure: "weakest" | "middle") => rateGroups(sisters.flatMap((sister) => sister.rates[figure] ?? []));
  return {
    sisters,
    bands,
    comparison: {
      ...compared,
      ...{ limit, plan, watch, cylinders },
      bands: bands.map(({ band }) => band).filter((band) => band.engines > 0),
      standings: standings.slice(0, mostListed),
    },
    rates: { ...compared, rates: { weakest: ratesOf("weakest"), middle: ratesOf("middle") } },
  };
}

function bandsOf(sisters: readonly Sister[], before: ModelCompared | null): MadeBand[] {
  const [now, then] = [new Set(sisters), new Set(before?.sisters)];
  const came = sisters.filter((sister) => !then.has(sister));
  const went = (before?.sisters ?? []).filter((sister) => !now.has(sister));
  return bandKinds.map((kind, place) => {
    const linesOf = (some: readonly Sister[]) => some.flatMap(({ lines }) => (lines[place] ? [lines[place]] : []));
    const made = before?.bands[place];
    return makeBand(
      linesOf(sisters),
      kind,
      made === undefined ? undefined : { made, came: linesOf(came), went: linesOf(went) },
    );
  });
}

/**
 * How each unit with a rate of its own stands beside its sisters, those that stand out first, then by speed. A unit is
 * fast if its fastest cylinder loses more than that of at least 90 % of its sisters (5 or more of them), and its rate's
 * lower bound (P10) more than their median: in every fleet some unit is the fastest, and that alone says nothing.
 */
function unitStandings(all: readonly Sister[], bands: readonly MadeBand[]): UnitStanding[] {
  const rated = all.flatMap((sister) => {
    const { fastest, measure } = sister;
    return fastest === null ? [] : [{ sister, fastest, speed: worseSign[measure] * fastest.perThousand }];
  });
  const speeds = Float64Array.from(rated, ({ speed }) => speed).sort();
  const whole = bands[wholePlace]?.band.stretches ?? [];
  // In a small fleet the unit itself would make much of the edge that it is held against.
  const bandBeside = (sister: Sister) =>
    all.length > fewNeighbours
      ? whole
      : makeBand(
          all.flatMap((other) => (other === sister || !other.lines[wholePlace] ? [] : [other.lines[wholePlace]])),
          { origin: "new", figure: "weakest" },
        ).band.stretches;
  const standings = rated.map(({ sister, fastest, speed }): UnitStanding & { readonly speed: number } => {
    const sisters = speeds.length - 1;
    const slower = placeIn(speeds, speeds.length, speed);
    const fast =
      sisters >= fewestSisters &&
      slower >= 0.9 * sisters &&
      slowestLikely(sister, fastest) > medianWithout(speeds, slower);
    return {
      unit: sister.unit,
      depot: sister.depot,
      fastest,
      sisters,
      slower,
      fast,
      beyondBand: sister.last !== null && isBeyond(sister.last, worseSign[sister.measure], bandBeside(sister)),
      speed,
    };
  });
  const rank = (s: UnitStanding) => (s.fast ? 0 : s.beyondBand ? 1 : 2);
  return standings
    .toSorted((a, b) => rank(a) - rank(b) || b.speed - a.speed)
    .map(({ speed: _speed, ...standing }) => standing);
}

/** The end of the rate's range that is kinder to the unit, as a speed of decline. */
const slowestLikely = ({ measure }: Sister, { p10, p90 }: CylinderRate): number =>
  measure === "leak-down" ? p10 : -p90;

/** Median of sorted values but for the one at `left`. */
function medianWithout(sorted: Float64Array, left: number): number {
  const at = (rank: number) => sorted[rank < left ? rank : rank + 1] as number;
  const others = sorted.length - 1;
  return (at((others - 1) >> 1) + at(others >> 1)) / 2;
}

/** A cylinder that was repaired and not read since tells nothing of now, so then nothing is told. */
function lastSinceNew(course: WearCourse): CoursePoint[] | null {
  const isReadSince = (cylinder: number) => course.lives.some((life) => life.cylinder === cylinder && life.current);
  if (!course.lives.every(({ cylinder }) => isReadSince(cylinder))) return null;
  const run = runsOf(course, "new", "weakest").at(-1);
  if (run?.compared !== true) return null;
  const last = run.points.filter(([, , weight]) => weight > 0).slice(-2);
  return last.length === 2 ? last : null;
}

/**
 * One reading beyond the band may be the test's own fault; two in a row are told. By chance alone some 2 to 6 in 100 units
 * of a fleet that wears alike read so: it is told as what was read, not as a fault.
 */
const isBeyond = (last: readonly CoursePoint[], sign: 1 | -1, stretches: readonly (readonly BandPoint[])[]): boolean =>
  last.every(([x, level]) => {
    const edge = edgeAt(stretches, x, sign > 0 ? "p90" : "p10");
    return edge !== null && sign * level > sign * edge;
  });

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
