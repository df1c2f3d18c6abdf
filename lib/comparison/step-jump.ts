import type { SharedStep } from "../schema/comparison.ts";
import { median } from "../statistics/quantile.ts";

/** A test along the meter; points, or % on a logarithmic scale. */
interface Read {
  readonly x: number;
  readonly value: number;
}

/** One engine's last tests before a date and first ones after it; one on each side at least. */
export interface AboutStep {
  readonly before: readonly Read[];
  readonly after: readonly Read[];
  /** What the pool expects wear to add for each of the meter, and its standard deviation. */
  readonly rate: number;
  readonly rateSd: number;
}

/** Engines with two tests on a side that a slope is told from. */
const fewestSlopes = 4;

interface Slope {
  readonly perX: number;
  readonly sd: number;
}

/**
 * How far readings jump at a date, between two lines that are fitted on each side of it: wear that goes straight on, sets in
 * or speeds up has other slopes and jumps nowhere. The slope of a side is that of all engines together, about each engine's
 * own mean; its error lets engines differ (cluster-robust by engine, Liang and Zeger 1986) and counts whole, for it is common
 * to all. Where a side has too few tests the pool's rate stands in with its whole error, and `fitted` says so.
 *
 * @param engines two or more
 */
export function jumpOf(engines: readonly AboutStep[]): NonNullable<SharedStep["jump"]> {
  const slopes = {
    before: slopeOf(engines.map(({ before }) => before)),
    after: slopeOf(engines.map(({ after }) => after)),
  };
  const jumps = engines.map(({ before, after, rate, rateSd }) => {
    const at = ((before.at(-1) as Read).x + (after[0] as Read).x) / 2;
    const expected: Slope = { perX: rate, sd: rateSd };
    const [b, a] = [slopes.before ?? expected, slopes.after ?? expected];
    const [since, until] = [meanOf(after, ({ x }) => x) - at, at - meanOf(before, ({ x }) => x)];
    const by = level(after) - a.perX * since - level(before) - b.perX * until;
    const raw = (after[0] as Read).value - (before.at(-1) as Read).value;
    return { by, raw, sinceSd: a.sd * since, untilSd: b.sd * until };
  });
  const mean = meanOf(jumps, ({ by }) => by);
  const scatter = jumps.reduce((sum, { by }) => sum + (by - mean) ** 2, 0) / (jumps.length - 1);
  const common = Math.hypot(
    meanOf(jumps, ({ sinceSd }) => sinceSd),
    meanOf(jumps, ({ untilSd }) => untilSd),
  );
  return {
    mean,
    middle: median(jumps.map(({ by }) => by)),
    standardError: Math.sqrt(scatter / jumps.length + common ** 2),
    raw: meanOf(jumps, ({ raw }) => raw),
    fitted: slopes.before !== null && slopes.after !== null,
  };
}

function slopeOf(sides: readonly (readonly Read[])[]): Slope | null {
  const told = sides.flatMap((side) => {
    const [x, value] = [meanOf(side, (r) => r.x), level(side)];
    const about = side.map((r) => ({ x: r.x - x, value: r.value - value }));
    return about.some((r) => r.x !== 0) ? [about] : [];
  });
  if (told.length < fewestSlopes) return null;
  const sum = (of: (r: Read) => number) => told.flat().reduce((total, r) => total + of(r), 0);
  const spread = sum(({ x }) => x ** 2);
  const perX = sum(({ x, value }) => x * value) / spread;
  const scores = told.map((about) => about.reduce((total, { x, value }) => total + x * (value - perX * x), 0));
  const variance = (scores.reduce((total, score) => total + score ** 2, 0) * told.length) / (told.length - 1);
  return { perX, sd: Math.sqrt(variance) / spread };
}

const meanOf = <T>(some: readonly T[], of: (one: T) => number): number =>
  some.reduce((sum, one) => sum + of(one), 0) / some.length;
const level = (some: readonly Read[]): number => meanOf(some, ({ value }) => value);
