import { toldLevels } from "../schema/track-record.ts";
import { normalQuantile } from "../statistics/normal.ts";
import { studentTQuantile } from "../statistics/student-t.ts";

/** What forecasts are held against. All in badness and in distance of use, as quantiles at `toldLevels`. */

const normalOfLevels = toldLevels.map((level) => normalQuantile(level));
const tOfLevels = new Map<number, readonly number[]>();

function studentOfLevels(degrees: number): readonly number[] {
  const known = tOfLevels.get(degrees);
  if (known !== undefined) return known;
  const fresh = toldLevels.map((level) => studentTQuantile(level, degrees));
  tOfLevels.set(degrees, fresh);
  return fresh;
}

/** A straight line through a cylinder's readings, with what it says of a reading ahead. */
export interface StraightLine {
  /** Quantiles of a reading `ahead` of the last one; ascending. */
  readonly levelsAhead: (ahead: number) => number[];
  /** Distances within which a reading meets the limit with each probability; null: not within `horizon`. */
  readonly distances: (limit: number, horizon: number) => (number | null)[];
}

/** Steps in which the distance to a limit is looked for. */
const distanceSteps = 60;

/**
 * Ordinary least squares by cylinder with its prediction interval (Student t), as a spreadsheet draws it; null: fewer than
 * three readings, or all at one meter reading. `x` ascends; what lies ahead is counted from `now`.
 */
export function straightLine(x: readonly number[], y: readonly number[], now: number): StraightLine | null {
  const n = x.length;
  if (n < 3) return null;
  const xMean = x.reduce((a, b) => a + b, 0) / n;
  const yMean = y.reduce((a, b) => a + b, 0) / n;
  let spread = 0;
  let cross = 0;
  for (let i = 0; i < n; i++) {
    spread += ((x[i] as number) - xMean) ** 2;
    cross += ((x[i] as number) - xMean) * ((y[i] as number) - yMean);
  }
  if (spread === 0) return null;
  const slope = cross / spread;
  const at = (v: number) => yMean + slope * (v - xMean);
  const squares = y.reduce((sum, v, i) => sum + (v - at(x[i] as number)) ** 2, 0);
  const residualSd = Math.sqrt(squares / (n - 2));
  const sdAt = (v: number) => residualSd * Math.sqrt(1 + 1 / n + (v - xMean) ** 2 / spread);
  const t = studentOfLevels(n - 2);
  const upper = (i: number, ahead: number) =>
    at(now + ahead) + (t[toldLevels.length - 1 - i] as number) * sdAt(now + ahead);
  return {
    levelsAhead: (ahead) => t.map((quantile) => at(now + ahead) + quantile * sdAt(now + ahead)),
    distances: (limit, horizon) =>
      toldLevels.map((_, i) => {
        let before = upper(i, 0);
        if (before >= limit) return 0;
        for (let step = 1; step <= distanceSteps; step++) {
          const ahead = (horizon * step) / distanceSteps;
          const level = upper(i, ahead);
          if (level >= limit) return (horizon * (step - 1 + (limit - before) / (level - before))) / distanceSteps;
          before = level;
        }
        return null;
      }),
  };
}

/** "Same as last time": the last reading again, give or take what two readings of one cylinder differ by. */
export const lastTimeLevels = (last: number, readingSd: number): number[] =>
  normalOfLevels.map((z) => last + z * Math.SQRT2 * readingSd);

/** By it a limit that was not met last time is never met. */
export const lastTimeDistances = (last: number, limit: number): (number | null)[] =>
  toldLevels.map(() => (last >= limit ? 0 : null));

/**
 * A fixed-interval rule: a repair is due every `interval` of use since the last one, whatever is measured. It tells one
 * distance and no range; null: the rule has no interval, so it asks for nothing.
 */
export const fixedIntervalDistances = (used: number, interval: number | null): (number | null)[] =>
  toldLevels.map(() => (interval === null ? null : Math.max(0, interval - used)));
