import type { BandPoint, Figure, Origin, SisterBand, WearCourse } from "../schema/comparison.ts";
import { quantileSorted } from "../statistics/quantile.ts";
import { type Line, levelAt, lineOf, runsOf } from "./runs.ts";

/** With fewer engines a band would be drawn from next to nothing. */
export const fewestSisters = 5;
const steps = 40;
/** Where more engines came and went, and more than this share of all, their levels are sorted anew. */
const mostExchanged = 4;
const mostExchangedShare = 0.02;

/** The lines of one engine that a band is made of, in the order of their lives; of `each`, those of all its cylinders. */
export type EngineLines = readonly Line[];

/** null: the engine has no course of this kind. */
export function engineLines(course: WearCourse, origin: Origin, figure: Figure): EngineLines | null {
  const lines = runsOf(course, origin, figure).flatMap((run) => (run.compared ? (lineOf(run) ?? []) : []));
  return lines.length === 0 ? null : lines;
}

/** A band and what it was made from, so that some engines can be exchanged for others. */
export interface MadeBand {
  readonly band: SisterBand;
  /** Where at least 5 engines overlap; null: nowhere. */
  readonly overlap: readonly [from: number, to: number] | null;
  /** At each step over the overlap, how many engines tell a level there, and all levels told, ascending. */
  readonly at: readonly LevelsAt[];
}

interface LevelsAt {
  readonly engines: number;
  readonly levels: Float64Array;
}

/** Engines that came and went since a band was made. */
export interface Exchange {
  readonly made: MadeBand;
  readonly came: readonly EngineLines[];
  readonly went: readonly EngineLines[];
}

/**
 * The band of sister engines: at 41 meter readings, spread evenly over where at least 5 engines overlap, the 10, 50 and
 * 90 % quantiles (Hyndman and Fan's definition 8) over the engines of each one's level, interpolated straight between its
 * own tests of one life, never beyond its first or last. So a band tells of the engines tested around there, and may step
 * where one comes in or leaves. Readings scatter about the truth, and the band holds that scatter too, as the line of a
 * unit beside it does. Of `each`, over all cylinders of these engines.
 *
 * @param engines all engines of one model, measure and meter unit that have a course of this kind
 * @param exchange a band made of other engines of it, and how these differ: while the overlap stays, only their levels
 * are reckoned. The band is the same to the last digit without it.
 */
export function makeBand(
  engines: readonly EngineLines[],
  { origin, figure }: Pick<SisterBand, "origin" | "figure">,
  exchange?: Exchange,
): MadeBand {
  const overlap = overlapOf(engines);
  const at = overlap === null ? [] : levelsOver(overlap, engines, figure, exchange);
  const xs = overlap === null ? [] : stepsOver(overlap);
  return { overlap, at, band: { origin, figure, engines: engines.length, stretches: stretchesOf(xs, at) } };
}

function levelsOver(
  overlap: readonly [number, number],
  engines: readonly EngineLines[],
  figure: Figure,
  exchange: Exchange | undefined,
): LevelsAt[] {
  const xs = stepsOver(overlap);
  const known = exchange?.made;
  const isSame = known?.overlap?.[0] === overlap[0] && known.overlap[1] === overlap[1];
  const most = Math.max(mostExchanged, mostExchangedShare * engines.length);
  if (exchange === undefined || !isSame || exchange.came.length + exchange.went.length > most) {
    return xs.map((x) => levelsAt(engines, x, figure));
  }
  return xs.map((x, i) => {
    const before = (known as MadeBand).at[i] as LevelsAt;
    const [came, went] = [levelsAt(exchange.came, x, figure), levelsAt(exchange.went, x, figure)];
    return {
      engines: before.engines + came.engines - went.engines,
      levels: exchanged(before.levels, came.levels, went.levels),
    };
  });
}

const stepsOver = ([from, to]: readonly [number, number]): number[] =>
  Array.from({ length: steps + 1 }, (_, i) => from + ((to - from) * i) / steps);

/** An engine counts once, by its last life that reaches `x`; of `each`, by all cylinders that do. */
function levelsAt(engines: readonly EngineLines[], x: number, figure: Figure): LevelsAt {
  const levels: number[] = [];
  let count = 0;
  for (const lines of engines) {
    const own = lines.map((line) => levelAt(line, x)).filter((level) => level !== null);
    if (own.length > 0) count += 1;
    levels.push(...(figure === "each" ? own : own.slice(-1)));
  }
  return { engines: count, levels: Float64Array.from(levels).sort() };
}

/** Ascending values with some more, and without some that are among them. */
function exchanged(values: Float64Array, more: Float64Array, less: Float64Array): Float64Array {
  if (more.length === 0 && less.length === 0) return values;
  const room = new Float64Array(values.length + more.length);
  room.set(values);
  let count = values.length;
  for (const value of less) {
    const place = placeIn(room, count, value);
    room.copyWithin(place, place + 1, count);
    count -= 1;
  }
  for (const value of more) {
    const place = placeIn(room, count, value);
    room.copyWithin(place + 1, place, count);
    room[place] = value;
    count += 1;
  }
  return room.slice(0, count);
}

/** How many of the first values, which ascend, lie below one; by halving. */
export function placeIn(values: Float64Array, count: number, value: number): number {
  let [low, high] = [0, count];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((values[middle] as number) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

function stretchesOf(xs: readonly number[], at: readonly LevelsAt[]): BandPoint[][] {
  const stretches: BandPoint[][] = [];
  let open: BandPoint[] | null = null;
  for (const [i, { engines, levels }] of at.entries()) {
    if (engines < fewestSisters) {
      open = null;
      continue;
    }
    if (open === null) {
      open = [];
      stretches.push(open);
    }
    const quantile = (p: number) => quantileSorted(levels, p);
    open.push({ x: xs[i] as number, engines, p10: quantile(0.1), p50: quantile(0.5), p90: quantile(0.9) });
  }
  // A lone point is no band to draw.
  return stretches.filter((stretch) => stretch.length > 1);
}

/** From the lowest to the highest meter reading that at least 5 engines were tested around; null: there is none. */
function overlapOf(engines: readonly EngineLines[]): readonly [number, number] | null {
  const begins = Float64Array.from(engines, (lines) => Math.min(...lines.map(({ xs }) => xs[0] as number))).sort();
  const ends = Float64Array.from(engines, (lines) => Math.max(...lines.map(({ xs }) => xs.at(-1) as number))).sort();
  let [begun, low, high] = [0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const [ended, to] of ends.entries()) {
    // Where one leaves as another comes, both are there.
    for (; begun < begins.length && (begins[begun] as number) <= to; begun++) {
      if (begun + 1 - ended === fewestSisters) low = Math.min(low, begins[begun] as number);
    }
    if (begun - ended === fewestSisters) high = to;
  }
  return high > low ? [low, high] : null;
}
