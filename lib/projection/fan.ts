import { normalCdf, normalQuantile } from "../statistics/normal.ts";
import { clockAt } from "./clock.ts";
import type { WearScale } from "./scale.ts";
import type { WearBranch } from "./types.ts";

/** The quantiles that a fan shows: the 80 % range, the 50 % range and the middle. */
const fanProbabilities = [0.1, 0.25, 0.5, 0.75, 0.9] as const;
export type FanQuantiles = [number, number, number, number, number];

/** Quantiles of the level (badness) after `ahead` of use, ascending. */
export function levelQuantilesAhead(branches: readonly WearBranch[], scale: WearScale, ahead: number): FanQuantiles {
  const parts = branches.map((b) => {
    const clock = clockAt(b.clock, b.now + ahead) - clockAt(b.clock, b.now);
    return {
      probability: b.probability,
      mean: b.level + b.rate * clock,
      sd: Math.sqrt(
        Math.max(0, b.levelVariance + 2 * clock * b.covariance + clock ** 2 * b.rateVariance) +
          b.wander * Math.max(0, clock),
      ),
    };
  });
  return fanProbabilities.map((p) => scale.back(mixtureQuantile(parts, p))) as FanQuantiles;
}

function mixtureQuantile(
  parts: readonly { readonly probability: number; readonly mean: number; readonly sd: number }[],
  p: number,
): number {
  const own = parts.map((part) => part.mean + part.sd * normalQuantile(p));
  let low = Math.min(...own);
  let high = Math.max(...own);
  // The mixture's quantile lies between those of its parts.
  for (let pass = 0; pass < 60 && high - low > 1e-9 * Math.max(1, Math.abs(low)); pass++) {
    const middle = (low + high) / 2;
    const below = parts.reduce(
      (sum, part) =>
        sum +
        part.probability * (part.sd > 0 ? normalCdf((middle - part.mean) / part.sd) : Number(middle >= part.mean)),
      0,
    );
    if (below < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
