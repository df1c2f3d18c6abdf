import type { EngineWear, WearBranch } from "./types.ts";

/**
 * An engine's wear with its ranges multiplied by `factor`: the standard deviations of level, rate and wandering of every
 * branch, now and ahead. What is likely stays: means, probabilities and clocks are left as they are.
 */
export function widened(wear: EngineWear, factor: number): EngineWear {
  if (factor === 1) return wear;
  const branches = (some: readonly WearBranch[]) => some.map((branch) => wider(branch, factor ** 2));
  return {
    ...wear,
    cylinders: wear.cylinders.map((cylinder) => ({
      ...cylinder,
      branches: branches(cylinder.branches),
      carried: branches(cylinder.carried),
    })),
  };
}

const wider = (branch: WearBranch, square: number): WearBranch => ({
  ...branch,
  levelVariance: square * branch.levelVariance,
  rateVariance: square * branch.rateVariance,
  covariance: square * branch.covariance,
  wander: square * branch.wander,
});
