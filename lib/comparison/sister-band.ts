import type { BandPoint, Figure, Origin, SisterBand, WearCourse } from "../schema/comparison.ts";
import { quantileSorted } from "../statistics/quantile.ts";
import { levelAt, type Run, runsOf } from "./runs.ts";

/** With fewer engines a band would be drawn from next to nothing. */
export const fewestSisters = 5;
const steps = 40;

/**
 * The band of sister engines: at 41 meter readings, spread evenly over where at least 5 engines overlap, the 10, 50 and
 * 90 % quantiles (Hyndman and Fan's definition 8) over the engines of each one's level, interpolated straight between its
 * own tests of one life, never beyond its first or last. So a band tells of the engines tested around there, and may step
 * where one comes in or leaves. Readings scatter about the truth, and the band holds that scatter too, as the line of a
 * unit beside it does. Of `each`, over all cylinders of these engines.
 *
 * Courses of one model, measure and meter unit.
 */
export function sisterBand(courses: readonly WearCourse[], origin: Origin, figure: Figure): SisterBand {
  const engines = courses
    .map((course) => runsOf(course, origin, figure).filter((run) => run.compared && reachOf(run) !== null))
    .filter((runs) => runs.length > 0);
  return { origin, figure, engines: engines.length, stretches: stretchesOf(engines, figure) };
}

/** First and last meter reading that counts; null: fewer than two. */
function reachOf({ points }: Run): readonly [number, number] | null {
  const counted = points.filter(([, , weight]) => weight > 0);
  const [first, last] = [counted[0]?.[0], counted.at(-1)?.[0]];
  return first === undefined || last === undefined || last <= first ? null : [first, last];
}

function stretchesOf(engines: readonly (readonly Run[])[], figure: Figure): BandPoint[][] {
  const overlap = overlapOf(engines);
  if (overlap === null) return [];
  const [from, to] = overlap;
  const stretches: BandPoint[][] = [];
  let open: BandPoint[] | null = null;
  for (let i = 0; i <= steps; i++) {
    const x = from + ((to - from) * i) / steps;
    const perEngine = engines.map((runs) => levelsOf(runs, x, figure)).filter((levels) => levels.length > 0);
    if (perEngine.length < fewestSisters) {
      open = null;
      continue;
    }
    const levels = perEngine.flat().toSorted((a, b) => a - b);
    if (open === null) {
      open = [];
      stretches.push(open);
    }
    const at = (p: number) => quantileSorted(levels, p);
    open.push({ x, engines: perEngine.length, p10: at(0.1), p50: at(0.5), p90: at(0.9) });
  }
  // A lone point is no band to draw.
  return stretches.filter((stretch) => stretch.length > 1);
}

/** An engine counts once, by its last life that reaches `x`; of `each`, by all cylinders that do. */
function levelsOf(runs: readonly Run[], x: number, figure: Figure): number[] {
  const levels = runs.map((run) => levelAt(run, x)).filter((level) => level !== null);
  return figure === "each" ? levels : levels.slice(-1);
}

/** From the lowest to the highest meter reading that at least 5 engines were tested around; null: there is none. */
function overlapOf(engines: readonly (readonly Run[])[]): readonly [number, number] | null {
  const ends = engines.flatMap((runs) => {
    const reaches = runs.map(reachOf).filter((reach) => reach !== null);
    const [from, to] = [Math.min(...reaches.map(([a]) => a)), Math.max(...reaches.map(([, b]) => b))];
    return [
      { x: from, change: 1 },
      { x: to, change: -1 },
    ];
  });
  // Where one leaves as another comes, both are there.
  ends.sort((a, b) => a.x - b.x || b.change - a.change);
  let count = 0;
  let [low, high] = [Infinity, -Infinity];
  for (const { x, change } of ends) {
    if (change === 1 && count === fewestSisters - 1) low = Math.min(low, x);
    if (change === -1 && count === fewestSisters) high = Math.max(high, x);
    count += change;
  }
  return high > low ? [low, high] : null;
}
