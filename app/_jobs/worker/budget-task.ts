import { budgetDocument } from "../../../lib/budget/document.ts";
import { budgetProblemOf } from "../../../lib/budget/problem-of.ts";
import { simulateBudget } from "../../../lib/budget/simulate.ts";
import { planProblemOf, type UnitOutlook } from "../../../lib/plan/problem-of.ts";
import type { BudgetDocument } from "../../../lib/schema/budget-document.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Booking } from "../../../lib/schema/kept-plan.ts";
import type { Workshop } from "../../../lib/schema/workshop.ts";

export interface BudgetInput {
  readonly outlooks: readonly UnitOutlook[];
  readonly workshop: Workshop;
  /** As the plan in force has them. */
  readonly bookings: readonly Booking[];
  /** Of the plan: the day from which its weeks are counted. */
  readonly planAsOf: IsoDate;
  /** Of the budget: its first month is that of this day. */
  readonly asOf: IsoDate;
  readonly seed: number;
  readonly draws: number;
}

/** The budget of a fleet under a plan. */
export function budgetTask(input: BudgetInput, tell: (share: number | null) => void): BudgetDocument {
  const { outlooks, workshop, bookings, planAsOf, asOf, seed, draws } = input;
  const { problem } = planProblemOf(outlooks, workshop, { asOf: planAsOf, dropped: [] });
  const toDraw = budgetProblemOf(outlooks, workshop, { asOf, problem, bookings });
  return budgetDocument(toDraw, simulateBudget(toDraw, { seed, draws, onProgress: tell }), { ...workshop, seed });
}
