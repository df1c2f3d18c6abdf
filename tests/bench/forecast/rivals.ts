import { pinballLoss } from "../../../lib/statistics/scores.ts";
import { theilSenLine } from "../../../lib/statistics/theil-sen.ts";

/** The lines that a planner draws through a cylinder's readings, and how far they say it is to the limit. */

export const rivalNames = ["least squares", "Theil–Sen", "last two tests"] as const;
export type RivalName = (typeof rivalNames)[number];

interface Line {
  readonly intercept: number;
  readonly slope: number;
}

function leastSquares(x: readonly number[], y: readonly number[]): Line | null {
  const n = x.length;
  const xMean = x.reduce((a, b) => a + b, 0) / n;
  const yMean = y.reduce((a, b) => a + b, 0) / n;
  const spread = x.reduce((sum, v) => sum + (v - xMean) ** 2, 0);
  if (spread === 0) return null;
  const slope = x.reduce((sum, v, i) => sum + (v - xMean) * ((y[i] as number) - yMean), 0) / spread;
  return { slope, intercept: yMean - slope * xMean };
}

/** Distance from `now` to the limit by each line, between 0 and `horizon`; a line that does not rise: the horizon. */
export function rivalDistances(
  x: readonly number[],
  y: readonly number[],
  { limit, now, horizon }: { readonly limit: number; readonly now: number; readonly horizon: number },
): Readonly<Record<RivalName, number>> {
  const distanceBy = (line: Line | null) => {
    if (line === null) return horizon;
    const level = line.intercept + line.slope * now;
    if (level >= limit) return 0;
    return line.slope > 0 ? Math.min(horizon, (limit - level) / line.slope) : horizon;
  };
  return {
    "least squares": distanceBy(leastSquares(x, y)),
    "Theil–Sen": distanceBy(theilSenLine(x, y)),
    "last two tests": distanceBy(leastSquares(x.slice(-2), y.slice(-2))),
  };
}

export const quantileLevels = [0.1, 0.5, 0.9] as const;

export interface Distances {
  readonly told: number;
  /** What came, at most the horizon. */
  readonly came: number;
  readonly horizon: number;
}

const multipliers = Array.from({ length: 121 }, (_, i) => 0.05 * 1.05 ** i);

/** Mean pinball loss of a rival at one level, its distances multiplied by the constant that suits it best in hindsight. */
export function rivalLoss(cases: readonly Distances[], level: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const m of [0, ...multipliers]) {
    let sum = 0;
    for (const { told, came, horizon } of cases) sum += pinballLoss(Math.min(horizon, m * told), came, level);
    least = Math.min(least, sum / cases.length);
  }
  return least;
}
