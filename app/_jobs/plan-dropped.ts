import type { PlanChoice } from "../../db/plan-choices.ts";
import type { Store } from "../../db/store.ts";
import { type DropCost, dropCost } from "../../lib/plan/moves.ts";
import { type PlanNow, unitInPlan } from "./plan-now.ts";

/** A repair that somebody wants not to be booked. */
export interface DroppedRepair extends Pick<PlanChoice, "unit" | "scope" | "by" | "at"> {
  readonly depot: string | null;
  /** What leaving it costs more than a week for it, by what is known now; null: there is no such week, or nothing is known of the unit. */
  readonly cost: DropCost | null;
}

/** What people dropped of the plan, in the order in which they did, with what that costs. */
export async function droppedNow(store: Store, { row, choices }: PlanNow): Promise<readonly DroppedRepair[]> {
  const dropped = choices.filter(({ kind }) => kind === "drop");
  return await Promise.all(
    dropped.map(async ({ unit, scope, by, at }): Promise<DroppedRepair> => {
      const of = await unitInPlan(store, row, unit);
      const booked = row.plan.bookings.find((booking) => booking.unit === unit && booking.scope === scope);
      return {
        ...{ unit, scope, by, at },
        depot: of?.depot ?? null,
        cost: of === null ? null : dropCost(of, scope, booked?.start ?? null),
      };
    }),
  );
}
