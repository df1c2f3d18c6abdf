/**
 * Median of values in any order (mean of the middle two for an even count); they are not changed. Throws a RangeError
 * for no values.
 */
export function median(values: ArrayLike<number>): number {
  return medianReordering(new Float64Array(values));
}

/**
 * Median of the absolute distances from the median, times 1.4826, which makes it an estimate of the standard deviation of
 * normal values that up to half of the values may spoil. Of fewer than 4 values it is mostly far too low. Throws a
 * RangeError for no values. Source: Rousseeuw & Croux, J. Am. Stat. Assoc. 88 (1993).
 */
export function medianAbsoluteDeviation(values: ArrayLike<number>): number {
  const middle = median(values);
  const distances = new Float64Array(values);
  for (let i = 0; i < distances.length; i++) distances[i] = Math.abs((distances[i] as number) - middle);
  return 1.4826 * medianReordering(distances);
}

/**
 * The value with half of the weight on either side: the lowest with at least half of the weight at or below it; the mean
 * of it and the next where exactly half lies there, so that equal weights give the plain median. Weights must not be
 * negative; those of 0 are left out. Throws a RangeError where no weight is left.
 */
export function weightedMedian(values: readonly number[], weights: readonly number[]): number {
  const order = values.map((_, i) => i).filter((i) => (weights[i] as number) > 0);
  order.sort((a, b) => (values[a] as number) - (values[b] as number));
  const half = order.reduce((sum, i) => sum + (weights[i] as number), 0) / 2;
  let below = 0;
  for (const [rank, i] of order.entries()) {
    below += weights[i] as number;
    if (below < half * (1 - 1e-12)) continue;
    const next = order[rank + 1];
    const level = values[i] as number;
    return below <= half * (1 + 1e-12) && next !== undefined ? (level + (values[next] as number)) / 2 : level;
  }
  throw new RangeError("no weight to take a median of");
}

/**
 * As `median`, but leaves the values in another order, which saves the copy; work in proportion to their number (Hoare's
 * selection). Throws a RangeError for no values.
 */
export function medianReordering(values: Float64Array): number {
  const n = values.length;
  if (n === 0) throw new RangeError("no values to take a median of");
  const middle = n >> 1;
  let low = 0;
  let high = n - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1] as number;
    let i = low;
    let j = high;
    while (i <= j) {
      while ((values[i] as number) < pivot) i++;
      while ((values[j] as number) > pivot) j--;
      if (i > j) break;
      const swapped = values[i] as number;
      values[i++] = values[j] as number;
      values[j--] = swapped;
    }
    if (middle <= j) high = j;
    else if (middle >= i) low = i;
    else break;
  }
  const upper = values[middle] as number;
  if (n % 2 === 1) return upper;
  let lower = -Infinity;
  for (let i = 0; i < middle; i++) lower = Math.max(lower, values[i] as number);
  return lower + 0.5 * (upper - lower);
}

/**
 * The value that the share `p` (0 to 1) of a population lies below, as far as a sample of it tells: linear between the
 * sorted values, median-unbiased whatever the distribution. Definition 8 of Hyndman & Fan, Am. Stat. 50 (1996) 361–365,
 * which they recommend. Beyond the outermost values it stays at these: of 5 values, the 90 % quantile is the highest.
 * `sorted` ascends. Throws a RangeError for no values.
 */
export function quantileSorted(sorted: ArrayLike<number>, p: number): number {
  const n = sorted.length;
  if (n === 0) throw new RangeError("no values to take a quantile of");
  const rank = Math.min(n, Math.max(1, (n + 1 / 3) * p + 1 / 3));
  // A rank that is whole but for the last bits of arithmetic is taken as whole.
  const whole = Math.min(n, Math.floor(rank + 4 * Number.EPSILON * n));
  const lower = sorted[whole - 1] as number;
  const upper = sorted[Math.min(n, whole + 1) - 1] as number;
  return lower + Math.max(0, rank - whole) * (upper - lower);
}
