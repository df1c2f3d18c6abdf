import { type PlanSetUp, planUnitOf, type UnitOutlook } from "../plan/problem-of.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { WhyLeftOut } from "../schema/kept-plan.ts";
import type { Workshop } from "../schema/workshop.ts";
import type { BookedRepair, BudgetProblem, BudgetUnit } from "./types.ts";

/** What a budget takes of a plan's booking. */
type Planned = Pick<BookedRepair, "unit" | "scope" | "week"> & { readonly cost: { readonly downtime: number } };

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
  }: { readonly asOf: IsoDate; readonly bookings: readonly Planned[] } & Pick<PlanSetUp, "problem">,
): BudgetProblem {
  const { firstMonday, prices, missWeeks, togetherWeeks } = problem;
  const untested = outlooks.flatMap((outlook): BudgetUnit[] => {
    const unit = outlook.pastLimit.length > 0 ? null : budgetUnitOf(outlook, workshop, firstMonday);
    return unit === null ? [] : [unit];
  });
  const tested = problem.units.map((unit): BudgetUnit => ({ ...unit, isUntested: false }));
  return {
    asOf,
    months: workshop.budgetMonths,
    firstMonday,
    units: [...tested, ...untested].toSorted((a, b) => (a.unit < b.unit ? -1 : 1)),
    bookings: bookings.map(({ unit, scope, week, cost }) => ({ unit, scope, week, downtime: cost.downtime })),
    prices,
    spreads: budgetSpreads(workshop),
    missWeeks,
    togetherWeeks,
  };
}

/** One unit as it is drawn; null: neither its tests nor its model foresee anything of it, or it is nowhere to be repaired. */
export function budgetUnitOf(outlook: UnitOutlook, workshop: Workshop, firstMonday: IsoDate): BudgetUnit | null {
  const made = drawnOf(outlook, workshop, firstMonday);
  return typeof made === "string" ? null : made;
}

/** Why nothing is drawn of a unit; null: something is. */
export function whyNotDrawn(outlook: UnitOutlook, workshop: Workshop, firstMonday: IsoDate): WhyLeftOut | null {
  const made = drawnOf(outlook, workshop, firstMonday);
  return typeof made === "string" ? made : null;
}

function drawnOf(outlook: UnitOutlook, workshop: Workshop, firstMonday: IsoDate): BudgetUnit | WhyLeftOut {
  const isUntested = outlook.pastLimit.length === 0;
  const pastLimit = isUntested ? outlook.fromModel : outlook.pastLimit;
  const made = planUnitOf({ ...outlook, pastLimit }, workshop, firstMonday);
  return typeof made === "string" ? made : { ...made, isUntested };
}

export const budgetSpreads = ({ spreads }: Pick<Workshop, "spreads">): BudgetProblem["spreads"] => ({
  hours: spreads.hoursPercent / 100,
  parts: spreads.partsPercent / 100,
  growth: spreads.growthPercent / 100,
  ofModel: spreads.ofModelPercent / 100,
});
