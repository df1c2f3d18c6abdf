import { daysBetween, mondayOnOrAfter } from "../calendar.ts";
import { monthsToWeeks, priceGrowthOf } from "../plan/problem-of.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { KeptBudgetBooking } from "../schema/kept-budget.ts";
import type { Workshop } from "../schema/workshop.ts";
import type { BudgetInputs } from "./inputs.ts";
import { budgetSpreads, budgetUnitOf } from "./problem-of.ts";
import { type BookedRepair, type BudgetProblem, firstWeek } from "./types.ts";

/** What a budget has beside its units and bookings: from when on, for how long, at what prices. */
export type Frame = Omit<BudgetProblem, "units" | "bookings">;

/** @param pricedAt day at whose prices all amounts stand where the workshop tells none */
export function frameOf(
  workshop: Workshop,
  { asOf, pricedAt }: { readonly asOf: IsoDate; readonly pricedAt: IsoDate },
): Frame {
  return {
    asOf,
    months: workshop.budgetMonths,
    firstMonday: mondayOnOrAfter(asOf),
    prices: priceGrowthOf(workshop, pricedAt),
    spreads: budgetSpreads(workshop),
    missWeeks: workshop.missWeeks,
    togetherWeeks: monthsToWeeks(workshop.togetherMonths),
  };
}

/** Bookings in a frame. One that was to begin this week, or whose week has gone by, is still to be made: at once. */
export const bookedIn = (
  bookings: readonly KeptBudgetBooking[],
  frame: Pick<Frame, "asOf" | "firstMonday">,
): readonly BookedRepair[] =>
  bookings.map(({ unit, scope, start, downtime }) => {
    const week = Math.max(firstWeek(frame), Math.floor(daysBetween(frame.firstMonday, start) / 7));
    return { unit, scope, week, downtime };
  });

/** The problem that inputs stand for: what was drawn when they were kept. */
export function problemOfInputs({ asOf, workshop, units, bookings }: BudgetInputs): BudgetProblem {
  const frame = frameOf(workshop, { asOf, pricedAt: asOf });
  const drawn = units.flatMap(({ outlook }) => budgetUnitOf(outlook, workshop, frame.firstMonday) ?? []);
  return {
    ...frame,
    units: drawn.toSorted((a, b) => (a.unit < b.unit ? -1 : 1)),
    bookings: bookedIn(bookings, frame),
  };
}
