import type { BudgetProblem, BudgetUnit } from "../../../lib/budget/types.ts";
import { planUnit } from "../plan/problem.ts";

export const budgetUnit = (unit: string, more: Partial<BudgetUnit> = {}): BudgetUnit => ({
  isUntested: false,
  ...planUnit(unit, more),
  ...more,
});

export const budgetOf = (units: readonly BudgetUnit[], more: Partial<BudgetProblem> = {}): BudgetProblem => ({
  asOf: "2026-09-02",
  months: 24,
  firstMonday: "2026-09-07",
  units,
  bookings: [],
  prices: { priceDate: "2026-09-07", labour: 0, parts: 0 },
  spreads: { hours: 0, parts: 0, growth: 0, ofModel: 0 },
  missWeeks: 8,
  togetherWeeks: 52,
  ...more,
});
