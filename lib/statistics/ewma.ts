export interface EwmaPoint {
  readonly average: number;
  readonly lower: number;
  readonly upper: number;
}

/**
 * Exponentially weighted moving averages of values in order, begun at the target, between limits of `limit` standard
 * deviations of the average by its exact variance. Source: NIST/SEMATECH e-Handbook, 6.3.2.4; the variance of the first
 * averages as in 6.3.2.4's reference, J. M. Lucas and M. S. Saccucci, Technometrics 32 (1990) 1–12.
 *
 * @param lambda weight of the newest value, above 0 to 1
 */
export function ewmaChart(
  values: readonly number[],
  { target, sd, lambda, limit }: { target: number; sd: number; lambda: number; limit: number },
): EwmaPoint[] {
  let average = target;
  return values.map((value, i) => {
    average = lambda * value + (1 - lambda) * average;
    const share = (lambda / (2 - lambda)) * (1 - (1 - lambda) ** (2 * (i + 1)));
    const reach = limit * sd * Math.sqrt(share);
    return { average, lower: target - reach, upper: target + reach };
  });
}
