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

/**
 * P(T ≤ t) of a Student t variable with an even number of degrees of freedom, in closed form.
 * Source: M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, 26.7.4.
 */
export function studentTCdfEven(t: number, degreesOfFreedom: number): number {
  if (degreesOfFreedom < 2 || degreesOfFreedom % 2 !== 0) {
    throw new RangeError(`${degreesOfFreedom} is no even number of degrees of freedom`);
  }
  const cosSquared = degreesOfFreedom / (degreesOfFreedom + t * t);
  let term = 1;
  let sum = 1;
  for (let i = 1; i < degreesOfFreedom / 2; i++) {
    term *= (cosSquared * (2 * i - 1)) / (2 * i);
    sum += term;
  }
  return 0.5 + (0.5 * t * sum) / Math.sqrt(degreesOfFreedom + t * t);
}
