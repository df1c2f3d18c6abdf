import { normalCdf } from "./normal.ts";

export interface MannKendall {
  /** Pairs that rise less pairs that fall. */
  readonly s: number;
  /** Variance of `s` without a trend, corrected for ties. */
  readonly variance: number;
  /** `s` in standard deviations, moved by 1 towards 0 for continuity. */
  readonly z: number;
  /** Two-sided, by the normal approximation. */
  readonly pValue: number;
}

/**
 * Mann–Kendall test for a trend, up or down and not necessarily straight, in values in order of time; equal values are
 * ties. The normal approximation is usual from 8 to 10 values on; with 5 or fewer the smallest possible p-value is about
 * 0.03. Values that depend on their neighbours make it find trends too often. The work grows with the square of the
 * number of values. Sources: Mann 1945; Kendall, Rank Correlation Methods (1975), variance with ties.
 */
export function mannKendall(values: readonly number[]): MannKendall {
  const n = values.length;
  let s = 0;
  for (let i = 1; i < n; i++) for (let j = 0; j < i; j++) s += Math.sign((values[i] as number) - (values[j] as number));
  const alike = new Map<number, number>();
  for (const v of values) alike.set(v, (alike.get(v) ?? 0) + 1);
  const term = (t: number) => t * (t - 1) * (2 * t + 5);
  let variance = term(n);
  for (const t of alike.values()) variance -= term(t);
  variance /= 18;
  const z = variance > 0 ? (s - Math.sign(s)) / Math.sqrt(variance) : 0;
  return { s, variance, z, pValue: 2 * normalCdf(-Math.abs(z)) };
}
