import type { WearBranch } from "@/lib/projection/types.ts";

/** A cylinder at 18 % that wears evenly towards a limit some way ahead. */
export const branch = (b: Partial<WearBranch> = {}): WearBranch => ({
  probability: 1,
  level: 18,
  rate: 0.003,
  levelVariance: 1.2 ** 2,
  rateVariance: 0.0008 ** 2,
  covariance: 0.0003,
  wander: 0.0004,
  clock: { from: 0, power: 1, unit: 1000 },
  now: 5000,
  isFault: false,
  ...b,
});
