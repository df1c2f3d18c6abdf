/**
 * The `p` quantile of values in ascending order, straight between neighbours (type 7 of Hyndman & Fan 1996, the usual
 * one of spreadsheets and R). `p` from 0 to 1. Throws a RangeError for no values or a `p` outside 0 to 1; values that do
 * not ascend give a wrong result unnoticed.
 */
export function quantileSorted(ascending: ArrayLike<number>, p: number): number {
  if (ascending.length === 0) throw new RangeError("no values to take a quantile of");
  if (!(p >= 0 && p <= 1)) throw new RangeError(`not a probability: ${p}`);
  const at = (ascending.length - 1) * p;
  const below = Math.floor(at);
  const low = ascending[below] as number;
  const share = at - below;
  return share === 0 ? low : low + share * ((ascending[below + 1] as number) - low);
}

/**
 * Median of values in any order (mean of the middle two for an even count); they are not changed. Throws a RangeError
 * for no values.
 */
export function median(values: ArrayLike<number>): number {
  return quantileSorted(sortAscending(new Float64Array(values)), 0.5);
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
  return 1.4826 * quantileSorted(sortAscending(distances), 0.5);
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

/** Sorts in place. A typed array's own sort is slow for the few values that are usual here. */
export function sortAscending(values: Float64Array): Float64Array {
  if (values.length > 60) return values.sort();
  for (let i = 1; i < values.length; i++) {
    const v = values[i] as number;
    let j = i - 1;
    for (; j >= 0 && (values[j] as number) > v; j--) values[j + 1] = values[j] as number;
    values[j + 1] = v;
  }
  return values;
}
