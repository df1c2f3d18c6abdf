import type { Highs } from "highs";
import { keptPlan } from "../../../lib/plan/keep-plan.ts";
import { makePlan } from "../../../lib/plan/make-plan.ts";
import { planProblemOf, type UnitOutlook } from "../../../lib/plan/problem-of.ts";
import type { PlanProblem } from "../../../lib/plan/types.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { KeptPlan } from "../../../lib/schema/kept-plan.ts";
import type { Workshop } from "../../../lib/schema/workshop.ts";

export interface PlanInput {
  readonly outlooks: readonly UnitOutlook[];
  readonly workshop: Workshop;
  readonly dropped: PlanProblem["dropped"];
  readonly asOf: IsoDate;
  /** Stops once the plan is proven to cost at most this share more than the cheapest, or after so long. */
  readonly gap: number;
  readonly seconds: number;
}

/** The cheapest plan of a fleet, as it is kept. */
export function planTask(highs: Highs, input: PlanInput, tell: (share: number | null) => void): KeptPlan {
  const { outlooks, workshop, dropped, asOf, gap, seconds } = input;
  const setUp = planProblemOf(outlooks, workshop, { asOf, dropped });
  const plan = makePlan(highs, setUp.problem, {
    gap,
    seconds,
    tellsChoices: true,
    clock: () => performance.now() / 1000,
    onProgress: ({ seconds: so }) => {
      tell(Math.min(1, so / seconds));
      return true;
    },
  });
  return keptPlan(plan, setUp, { workshop, outlooks });
}
