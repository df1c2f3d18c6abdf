import { normalCdf, normalQuantile } from "../statistics/normal.ts";
import type { WearBranch } from "./types.ts";

/** The quantiles that a fan shows: the 80 % range, the 50 % range and the middle. */
const fanProbabilities = [0.1, 0.25, 0.5, 0.75, 0.9] as const;
export type FanQuantiles = [number, number, number, number, number];

/** Quantiles of the level (badness) after `ahead` of use, ascending. */
export function levelQuantilesAhead(
  branches: readonly WearBranch[],
  wanderVariance: number,
  ahead: number,
): FanQuantiles {
  const parts = branches.map((b) => ({
    probability: b.probability,
    mean: b.level + b.rate * ahead,
    sd: Math.sqrt(
      Math.max(0, b.levelVariance + 2 * ahead * b.covariance + ahead ** 2 * b.rateVariance) + wanderVariance * ahead,
    ),
  }));
  return fanProbabilities.map((p) => mixtureQuantile(parts, p)) as FanQuantiles;
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
