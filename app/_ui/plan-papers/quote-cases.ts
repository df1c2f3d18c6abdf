import { type WorkRange, workRange } from "../../../lib/plan/amounts.ts";
import { priceGrowthOf } from "../../../lib/plan/problem-of.ts";
import { worksOf } from "../../../lib/plan/works-of.ts";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import type { KeptBooking, PlanScope, RepairClass, Work } from "../../../lib/schema/kept-plan.ts";
import { depotWorkshopOf } from "../../../lib/schema/workshop.ts";
import type { PlanNow } from "../../_jobs/plan-now.ts";

export interface QuoteCase {
  readonly scope: PlanScope;
  readonly work: Work;
  readonly range: WorkRange;
  /** Probability that it is this class, if one falls due within the plan; null: not told. */
  readonly chance: number | null;
  readonly isBooked: boolean;
}

/**
 * What a booking is quoted as, and what it would be if its class turned out otherwise: every repair that the engine's model tells costs
 * of, in the workshop and week of the booking, the booked one first.
 */
export function quoteCases(
  booking: KeptBooking,
  model: EngineModel,
  { workshop, asOf }: PlanNow["row"],
): readonly QuoteCase[] {
  const prices = priceGrowthOf(workshop, asOf);
  const works = worksOf(model, depotWorkshopOf(workshop, booking.depot), workshop).filter(
    ({ scope }) => scope !== booking.scope,
  );
  return [booking.work, ...works].map((work) => ({
    scope: work.scope,
    work,
    range: workRange(work, { prices, date: booking.start, spreads: workshop.spreads }),
    chance: chanceOf(booking, work),
    isBooked: work === booking.work,
  }));
}

/** Of the two classes alone: how likely both are at once, or that an engine is exchanged, no forecast tells. */
function chanceOf({ sure, work: { cures } }: Pick<KeptBooking, "sure" | "work">, work: Work): number | null {
  const [booked, of]: readonly (RepairClass | undefined)[] = [cures[0], work.cures[0]];
  if (sure === null || cures.length > 1 || work.cures.length > 1) return null;
  return booked === of ? sure : 1 - sure;
}
