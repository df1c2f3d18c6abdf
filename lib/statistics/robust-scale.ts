import { medianAbsoluteDeviation } from "./quantile.ts";

/** Deviations count up to so many scales. */
const bound = 2;
/** E[min(z², 4)] of a standard normal z. */
const keptOfNormal = 0.920549;

/**
 * The standard deviation that values about 0 would have were all of them of the normal majority: each counts up to two of
 * it, so that a few far ones hardly widen it (P. J. Huber's proposal 2, Robust estimation of a location parameter, Annals
 * of Mathematical Statistics 35 (1964) 73–101). 0 where at least half of them are 0; NaN of none.
 */
export function robustScale(values: readonly number[]): number {
  if (values.length === 0) return Number.NaN;
  let scale = medianAbsoluteDeviation([...values, ...values.map((v) => -v)]);
  for (let pass = 0; pass < 50 && scale > 0; pass++) {
    const most = (bound * scale) ** 2;
    const next = Math.sqrt(values.reduce((sum, v) => sum + Math.min(v * v, most), 0) / (values.length * keptOfNormal));
    if (Math.abs(next - scale) < 1e-9 * scale) break;
    scale = next;
  }
  return scale;
}
