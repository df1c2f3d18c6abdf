import { describe, expect, it } from "vitest";
import { simulateBudget } from "../../lib/budget/simulate.ts";
import { rangeOf } from "../../lib/budget/summarise.ts";
import { normalQuantile } from "../../lib/statistics/normal.ts";
import { budgetOf, budgetUnit } from "../lib/budget/problem.ts";
import { need, never, topEnd } from "../lib/plan/problem.ts";

/**
 * Monte Carlo against closed forms, within the standard error of a sample quantile, √(p(1 − p) ÷ n) ÷ f(q) (David and Nagaraja,
 * Order Statistics, 3rd ed. 2003, section 10.2), and compound growth by its formula.
 */
const draws = 10_000;
const levels = { p50: 0.5, p80: 0.8, p95: 0.95 } as const;
const onlyParts = { ...topEnd, labour: 0, parts: 1_000_000, daysOff: 0 };

describe("quantiles of drawn money", () => {
  it("are those of a log-normal where one booked repair takes log-normal parts", () => {
    const sd = 0.3;
    const unit = budgetUnit("A", { needs: [never("topEnd"), never("bottomEnd")], works: [onlyParts] });
    const { totals } = simulateBudget(
      budgetOf([unit], {
        spreads: { hours: 0, parts: sd, growth: 0, ofModel: 0 },
        bookings: [{ unit: "A", scope: "top-end", week: 10 }],
      }),
      { seed: 11, draws },
    );
    const range = rangeOf(totals, { months: 24, from: 0, to: 24 });
    for (const [name, p] of Object.entries(levels)) {
      const z = normalQuantile(p);
      const exact = 1_000_000 * Math.exp(sd * z - (sd * sd) / 2);
      const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI) / (sd * exact);
      const error = Math.sqrt((p * (1 - p)) / draws) / density;
      expect(Math.abs(range[name as keyof typeof levels] - exact)).toBeLessThan(3 * error);
    }
  });

  it("are those of a binomial where many units need a repair with one probability each", () => {
    const n = 40;
    const chance = 0.3;
    const flat = Float64Array.from({ length: 157 }, (_, w) => Math.min(chance, (chance * w) / 10));
    const units = Array.from({ length: n }, (_, i) =>
      budgetUnit(`U-${i}`, {
        needs: [{ ...need("topEnd", 0), crossed: flat }],
        works: [onlyParts],
        runningOn: { perWeek: 0, failurePerWeek: 0, damage: 0 },
      }),
    );
    const { totals } = simulateBudget(budgetOf(units), { seed: 5, draws });
    const counts = Array.from({ length: draws }, (_, d) => {
      let sum = 0;
      for (let m = 0; m < 24; m++) sum += totals[d * 24 + m] as number;
      return sum / 1_000_000;
    });
    let probability = (1 - chance) ** n;
    for (let k = 0; k <= n; k++) {
      if (k > 0) probability *= (((n - k + 1) / k) * chance) / (1 - chance);
      const share = counts.filter((count) => count === k).length / draws;
      expect(Math.abs(share - probability)).toBeLessThan(
        3.5 * Math.sqrt((probability * (1 - probability)) / draws) + 1e-4,
      );
    }
  });
});

describe("prices", () => {
  it("grow by compound interest from their date to the repair's", () => {
    const unit = budgetUnit("A", { needs: [never("topEnd"), never("bottomEnd")], works: [onlyParts] });
    const at = (priceDate: string) =>
      simulateBudget(
        budgetOf([unit], {
          prices: { priceDate, labour: 0, parts: 0.04 },
          bookings: [{ unit: "A", scope: "top-end", week: 52 }],
        }),
        { seed: 1, draws: 2 },
      ).totals.reduce((a, b) => a + b, 0) / 2;
    // 52 weeks are 364 days of a year of 365.2425; then two years of 365 days each more.
    expect(at("2026-09-07")).toBe(Math.round(1_000_000 * 1.04 ** (364 / 365.2425)));
    expect(at("2024-09-07")).toBe(Math.round(1_000_000 * 1.04 ** ((364 + 730) / 365.2425)));
  });
});
