import loadHighs from "highs";
import { describe, expect, it } from "vitest";
import { makePlan } from "../../lib/plan/make-plan.ts";
import { unitCosts } from "../../lib/plan/unit-costs.ts";
import { need, never, planUnit, problemOf, weeksOf } from "../lib/plan/problem.ts";

/**
 * The newsvendor's trade-off (Arrow, Harris and Marschak 1951): where each week too early costs a and each week too late b,
 * the best time is the quantile a ÷ (a + b) of what is waited for. So it is with a repair whose running on costs b a week,
 * where nothing fails and prices stand still.
 */
const highs = await loadHighs();

describe.each([
  { perWeek: 1_000, mean: 25, sd: 6 },
  { perWeek: 5_000, mean: 25, sd: 6 },
  { perWeek: 20_000, mean: 25, sd: 6 },
  { perWeek: 5_000, mean: 30, sd: 10 },
])("one repair, $perWeek a week late, due about week $mean", ({ perWeek, mean, sd }) => {
  const of = need("bottomEnd", mean, sd);
  const problem = problemOf(
    [planUnit("B-1", { needs: [never("topEnd"), of], runningOn: { perWeek, failurePerWeek: 0, damage: 0 } })],
    {
      depots: [{ depot: "Lowmarsh", weeks: weeksOf(80, () => ({ bayDays: 50, hours: 500, builderHours: 500 })) }],
      prices: { priceDate: "2026-07-01", labour: 0, parts: 0 },
    },
  );

  it("is planned for the week in which the quantile is reached", () => {
    const { timings } = unitCosts(problem.units[0] as (typeof problem.units)[number], problem);
    const early = timings[1]?.lifeValue ?? 0;
    const quantile = early / (early + perWeek);
    const plan = makePlan(highs, problem, {
      gap: 0,
      seconds: 60,
      clock: () => performance.now() / 1000,
      onProgress: () => true,
    });
    const [booking] = plan.bookings;
    expect(booking?.scope).toBe("bottom-end");
    // Between two Mondays the nearer one is best, so the quantile lies within half a week of it.
    const at = (week: number) => {
      const i = Math.floor(week);
      const [a, b] = [of.crossed[i] as number, of.crossed[i + 1] as number];
      return a + (week - i) * (b - a);
    };
    const week = booking?.week as number;
    expect(at(week - 0.5)).toBeLessThan(quantile + 1e-3);
    expect(at(week + 0.5)).toBeGreaterThan(quantile - 1e-3);
  });
});
