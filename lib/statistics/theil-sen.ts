import { medianReordering } from "./quantile.ts";

export interface RobustLine {
  readonly slope: number;
  /** Median of y − slope·x. */
  readonly intercept: number;
}

const mostPoints = 200;

/**
 * The Theil–Sen line: the slope is the median of the slopes of all pairs of points with different x, the intercept the
 * median of y − slope·x over the points (another usual definition takes median y − slope·median x). About 29 % of the
 * points may be wrong without spoiling it. `x` and `y` in the same order, of the same length; x must ascend.
 *
 * The work grows with the square of the number of points, so of more than 200 only 200 are used: those at evenly spaced
 * ranks, the first and the last always. null: fewer than two different x.
 *
 * Sources: Theil 1950; Sen, J. Am. Stat. Assoc. 63 (1968) 1379–1389.
 */
export function theilSenLine(x: ArrayLike<number>, y: ArrayLike<number>): RobustLine | null {
  if (x.length > mostPoints) return theilSenLine(thinned(x), thinned(y));
  const n = x.length;
  const slopes = new Float64Array((n * (n - 1)) / 2);
  let count = 0;
  for (let i = 1; i < n; i++) {
    const xi = x[i] as number;
    const yi = y[i] as number;
    for (let j = 0; j < i; j++) {
      const run = xi - (x[j] as number);
      if (run !== 0) slopes[count++] = (yi - (y[j] as number)) / run;
    }
  }
  if (count === 0) return null;
  const slope = medianReordering(slopes.subarray(0, count));
  const offsets = new Float64Array(n);
  for (let i = 0; i < n; i++) offsets[i] = (y[i] as number) - slope * (x[i] as number);
  return { slope, intercept: medianReordering(offsets) };
}

function thinned(values: ArrayLike<number>): Float64Array {
  const step = (values.length - 1) / (mostPoints - 1);
  return Float64Array.from({ length: mostPoints }, (_, i) => values[Math.round(i * step)] as number);
}
