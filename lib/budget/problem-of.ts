import type { Plan } from "../plan/make-plan.ts";
import { type PlanSetUp, planUnitOf, type UnitOutlook } from "../plan/problem-of.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { Workshop } from "../schema/workshop.ts";
import type { BudgetProblem, BudgetUnit } from "./types.ts";

/**
 * What a budget is drawn from: the units of a plan and its bookings, and the units that are too seldom tested to be planned, by what
 * their models foresee.
 */
export function budgetProblemOf(
  outlooks: readonly UnitOutlook[],
  workshop: Workshop,
  {
    asOf,
    problem,
    bookings,
  }: { readonly asOf: IsoDate; readonly bookings: Plan["bookings"] } & Pick<PlanSetUp, "problem">,
): BudgetProblem {
  const { firstMonday, prices, missWeeks, togetherWeeks } = problem;
  const untested = outlooks.flatMap((outlook): BudgetUnit[] => {
    if (outlook.pastLimit.length > 0 || outlook.fromModel.length === 0) return [];
    const made = planUnitOf({ ...outlook, pastLimit: outlook.fromModel }, workshop, firstMonday);
    return typeof made === "string" ? [] : [{ ...made, isUntested: true }];
  });
  const tested = problem.units.map((unit): BudgetUnit => ({ ...unit, isUntested: false }));
  const { spreads } = workshop;
  return {
    asOf,
    months: workshop.budgetMonths,
    firstMonday,
    units: [...tested, ...untested].toSorted((a, b) => (a.unit < b.unit ? -1 : 1)),
    bookings: bookings.map(({ unit, scope, week, cost }) => ({ unit, scope, week, downtime: cost.downtime })),
    prices,
    spreads: {
      hours: spreads.hoursPercent / 100,
      parts: spreads.partsPercent / 100,
      growth: spreads.growthPercent / 100,
      ofModel: spreads.ofModelPercent / 100,
    },
    missWeeks,
    togetherWeeks,
  };
}
