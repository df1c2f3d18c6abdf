import quantile from "@stdlib/stats-base-dists-t-quantile";

/** The `t` that a Student t variable with `degreesOfFreedom` (above 0) lies below with `probability` (0 to 1). */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  const t = quantile(probability, degreesOfFreedom);
  if (Number.isNaN(t))
    throw new RangeError(`no t quantile for ${probability} with ${degreesOfFreedom} degrees of freedom`);
  return t;
}
