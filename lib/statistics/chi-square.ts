import { normalQuantile } from "./normal.ts";

/**
 * The value that a chi-square variable lies below with `probability`, by the cube root of E. B. Wilson and M. M. Hilferty,
 * Proc. Natl. Acad. Sci. 17 (1931): between the 2.5 % and the 97.5 % points within 5 % from 5 degrees of freedom on, and
 * within 1 % from 10.
 */
export function chiSquareQuantile(probability: number, degreesOfFreedom: number): number {
  const share = 2 / (9 * degreesOfFreedom);
  return degreesOfFreedom * Math.max(0, 1 - share + normalQuantile(probability) * Math.sqrt(share)) ** 3;
}

/** The 95 % interval of a standard deviation of normal values, from its degrees of freedom. */
export function sdInterval(sd: number, degreesOfFreedom: number): readonly [low: number, high: number] {
  const at = (p: number) => sd * Math.sqrt(degreesOfFreedom / chiSquareQuantile(p, degreesOfFreedom));
  return [at(0.975), at(0.025)];
}
