import { clockAt } from "../projection/clock.ts";
import { levelQuantilesAhead } from "../projection/fan.ts";
import type { WearScale } from "../projection/scale.ts";
import type { WearBranch, WearPool } from "../projection/types.ts";
import { toldLevels } from "../schema/track-record.ts";
import { normalQuantile } from "../statistics/normal.ts";

/** What was told of one later reading, or of one distance, as quantiles at `toldLevels`; and what came on that scale. */

const scores = toldLevels.map((level) => normalQuantile(level));
const [z5, z10, , , , z90, z95] = scores as [number, number, number, number, number, number, number];

/** The furthest that a standardised error is told: beyond it a normal variable never lies, and it says no more. */
const mostSds = 8;

/**
 * Quantiles of a reading after `ahead` of use: the fan of the level, widened by what readings are off by. The outermost
 * two lie beyond what the fan tells and are drawn out as those of a normal variable.
 *
 * @param later standard deviations that referring adds to what the later test reads, as a share of it, and rounding
 */
export function readingQuantiles(
  branches: readonly WearBranch[],
  pool: Pick<WearPool, "testSd" | "readingSd" | "readingShare">,
  scale: WearScale,
  ahead: number,
  { referralShare, roundingSd }: { readonly referralShare: number; readonly roundingSd: number },
): number[] {
  const widened = branches.map((branch) => {
    const turns = clockAt(branch.clock, branch.now + ahead) - clockAt(branch.clock, branch.now);
    const level = scale.back(branch.level + branch.rate * turns);
    // An error in per cent is one of the leak's area by the slope of the one over the other.
    const error = Math.hypot(readingSd(pool, level), roundingSd, referralShare * level) * scale.slope(level);
    return { ...branch, levelVariance: branch.levelVariance + error ** 2 };
  });
  const [p10, p25, p50, p75, p90] = levelQuantilesAhead(widened, scale, ahead);
  return [p50 + ((p10 - p50) * z5) / z10, p10, p25, p50, p75, p90, p50 + ((p90 - p50) * z95) / z90];
}

/** Standard deviation of one reading about the true level, but for rounding. */
export const readingSd = (pool: Pick<WearPool, "testSd" | "readingSd" | "readingShare">, level: number): number =>
  Math.hypot(pool.testSd, pool.readingSd, pool.readingShare * Math.max(0, level));

/**
 * The normal score of what came among the told quantiles: straight between them, beyond them by the slope of that side. 0
 * is the middle, 1.28 the upper end of the 80 % range. Quantiles ascend; where they all lie together, ±8.
 */
export function standardised(quantiles: readonly number[], came: number): number {
  const bounded = (z: number) => Math.min(mostSds, Math.max(-mostSds, z));
  const last = quantiles.length - 1;
  const middle = last / 2;
  const q = (i: number) => quantiles[i] as number;
  if (came <= q(0)) return bounded(beyond(q(middle), q(0), came, z5, -mostSds));
  if (came >= q(last)) return bounded(beyond(q(middle), q(last), came, z95, mostSds));
  const i = quantiles.findLastIndex((value) => value <= came);
  const width = q(i + 1) - q(i);
  const share = width > 0 ? (came - q(i)) / width : 0;
  return (scores[i] as number) + share * ((scores[i + 1] as number) - (scores[i] as number));
}

function beyond(middle: number, end: number, came: number, score: number, most: number): number {
  const width = end - middle;
  return width === 0 ? (came === middle ? 0 : most) : ((came - middle) / width) * score;
}

/**
 * How much of the told probability lies within a distance: straight between the quantiles, which may be null (beyond what is
 * foreseen) from some place on; half of the outermost share before the first and after the last.
 */
export function probabilityAt(distances: readonly (number | null)[], distance: number): number {
  const known = distances.filter((d) => d !== null);
  const first = known[0];
  if (first === undefined || distance < first) return (toldLevels[0] as number) / 2;
  const i = known.findLastIndex((d) => d <= distance);
  const at = toldLevels[i] as number;
  const next = known[i + 1];
  if (next === undefined) return known.length === toldLevels.length ? (1 + at) / 2 : at;
  const share = (distance - (known[i] as number)) / (next - (known[i] as number));
  return at + share * ((toldLevels[i + 1] as number) - at);
}
