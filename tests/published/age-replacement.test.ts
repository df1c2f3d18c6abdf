import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { lateCosts, lifeLeft, lifeValue, timingOf } from "../../lib/plan/week-costs.ts";

/**
 * Age replacement: Barlow and Proschan 1965, chapter 4; the uniform life with its printed cost rates from Jardine and Tsang,
 * Maintenance, Replacement, and Reliability, chapter 2, problem 2. An engine that fails when it meets its limit, is repaired at
 * the planned cost before and at the failure's cost after, is the case of the plan's costs in which running on costs nothing
 * and every crossing is a failure.
 */
interface Published {
  readonly textbook_uniform: {
    readonly cost_preventive: number;
    readonly cost_failure: number;
    readonly published_cost_rate: Readonly<Record<string, number>>;
    readonly continuous_optimum: number;
    readonly cost_rate_at_continuous_optimum: number;
  };
  readonly weibull: readonly {
    readonly shape: number;
    readonly scale: number;
    readonly cost_preventive: number;
    readonly cost_failure: number;
    readonly optimal_age: number;
    readonly optimal_cost_rate: number;
  }[];
  readonly no_finite_optimum: readonly { readonly shape: number }[];
}

const published = JSON.parse(
  readFileSync(new URL("./data/l_age_replacement.json", import.meta.url), "utf8"),
) as Published;

/** A life on a grid that is fine beside it; the plan's own grid is a week. */
const steps = 4000;
const gridOf = (end: number, survival: (age: number) => number) => ({
  crossed: Float64Array.from({ length: steps + 1 }, (_, i) => 1 - survival((end * i) / steps)),
  step: end / steps,
});
/** A crossing is a failure at once, or nearly: within a step or two of the grid. */
const failsAtOnce = { perWeek: 0, failurePerWeek: 1, damage: 0 };

/** Cost rates of repairing at each age, by the plan's parts: repair and late, over the life that was used. */
function rates({ crossed, step }: ReturnType<typeof gridOf>, preventive: number, failure: number) {
  const late = lateCosts(crossed, failsAtOnce, failure - preventive);
  const left = lifeLeft({ crossed, ageWeeks: 0 });
  return Array.from(late, (of, i) => (preventive + of) / (step * ((left[0] as number) - (left[i] as number))));
}

describe("age replacement", () => {
  it("gives the printed cost rates of a uniform life and its closed-form optimum", () => {
    const {
      cost_preventive: planned,
      cost_failure: failed,
      published_cost_rate: printed,
      ...best
    } = published.textbook_uniform;
    const grid = gridOf(40_000, (age) => Math.max(0, 1 - age / 40_000));
    const all = rates(grid, planned, failed);
    for (const [km, rate] of Object.entries(printed)) {
      // Printed with four decimals; failures come half a step late on the grid.
      expect(all[Number(km) / grid.step]).toBeCloseTo(rate, 4);
    }
    const least = lifeValue({ crossed: grid.crossed, ageWeeks: 0 }, planned, lateCosts(grid.crossed, failsAtOnce, 100));
    expect(least / grid.step).toBeCloseTo(best.cost_rate_at_continuous_optimum, 5);
    expect(all.indexOf(Math.min(...all)) * grid.step).toBeCloseTo(best.continuous_optimum, -3);
  });

  it.each(published.weibull)("finds the optimum of a Weibull life, shape $shape, failure $cost_failure", (of) => {
    const grid = gridOf(4 * of.scale, (age) => Math.exp(-((age / of.scale) ** of.shape)));
    const all = rates(grid, of.cost_preventive, of.cost_failure);
    const least = Math.min(...all);
    // A step of the grid is 0.001 of the scale, and failures come some half of one late.
    expect(Math.abs(least / of.optimal_cost_rate - 1)).toBeLessThan(0.002);
    // The rate is flat about its optimum.
    expect(Math.abs((all.indexOf(least) * grid.step) / of.optimal_age - 1)).toBeLessThan(0.01);
  });

  it.each(published.weibull)("times a repair there: early and late together are least, shape $shape", (of) => {
    const grid = gridOf(4 * of.scale, (age) => Math.exp(-((age / of.scale) ** of.shape)));
    const timing = timingOf(
      { of: "bottomEnd", crossed: grid.crossed, ageWeeks: 0, unplannedFactor: of.cost_failure / of.cost_preventive },
      { runningOn: failsAtOnce, disposalWeek: null },
      { repair: of.cost_preventive, work: of.cost_preventive },
      { weeks: steps, missWeeks: 0 },
    );
    const sum = Array.from(timing.early, (early, i) => early + (timing.late[i] as number));
    expect(Math.abs((sum.indexOf(Math.min(...sum)) * grid.step) / of.optimal_age - 1)).toBeLessThan(0.01);
  });

  it.each(published.no_finite_optimum)(
    "never repairs early where the hazard does not rise, shape $shape",
    ({ shape }) => {
      const grid = gridOf(20, (age) => Math.exp(-(age ** shape)));
      const all = rates(grid, 1, 5);
      // The least lies at the end of the grid, where nearly all have failed.
      expect(all.indexOf(Math.min(...all))).toBeGreaterThan(0.8 * steps);
    },
  );
});
