import quantile from "@stdlib/stats-base-dists-t-quantile";

/** The `t` that a Student t variable with `degreesOfFreedom` (above 0) lies below with `probability` (0 to 1). */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  const t = quantile(probability, degreesOfFreedom);
  if (Number.isNaN(t))
    throw new RangeError(`no t quantile for ${probability} with ${degreesOfFreedom} degrees of freedom`);
  return t;
}

/**
 * How likely a Student t variable lies at least as far from 0 as `t`, on either side. By halving the interval in which the
 * quantile meets `t`; probabilities below 1e-12 are given as that.
 */
export function studentTTwoSided(t: number, degreesOfFreedom: number): number {
  const size = Math.abs(t);
  let [low, high] = [Math.log(1e-12), 0];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (studentTQuantile(1 - Math.exp(middle) / 2, degreesOfFreedom) > size) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}
