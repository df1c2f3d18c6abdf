import type { IsoDate, RepairFact } from "../schema/facts.ts";
import type { PlanScope } from "../schema/kept-plan.ts";
import { quantileSorted } from "../statistics/quantile.ts";
import { cures } from "./cures.ts";
import { repairKey } from "./still-booked.ts";

/** A booking of some plan, by what it is found again when its repair is recorded. */
interface BookedThen {
  /** Number of its plan: of two, the higher was made later. */
  readonly plan: number;
  readonly unit: string;
  readonly scope: PlanScope;
  /** As-of date of its plan. */
  readonly asOf: IsoDate;
  /** Keys of repairs that were on file as it was booked, which do not close it; left out: only those before its plan do not. */
  readonly known?: ReadonlySet<string>;
}

export interface Closed<B extends BookedThen> {
  readonly repair: RepairFact;
  /** Of one plan: what of it this repair put right. */
  readonly bookings: readonly B[];
}

/**
 * The repairs on file that a plan had booked, oldest first, each with the bookings that it closed: those of the newest plan made on or
 * before its day that had the unit booked for any of what it puts right. A booking is closed by the first such repair, and by no later one.
 */
export function closedBookings<B extends BookedThen>(
  bookings: readonly B[],
  repairs: readonly RepairFact[],
): readonly Closed<B>[] {
  const inOrder = repairs.toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  const byUnit = new Map<string, RepairFact[]>();
  for (const repair of inOrder) byUnit.set(repair.unit, [...(byUnit.get(repair.unit) ?? []), repair]);
  const byRepair = new Map<RepairFact, B[]>();
  for (const booking of bookings) {
    const booked = cures(booking.scope);
    const first = byUnit
      .get(booking.unit)
      ?.find(
        (repair) =>
          repair.date >= booking.asOf &&
          booking.known?.has(repairKey(repair)) !== true &&
          cures(repair.scope).some((of) => booked.includes(of)),
      );
    if (first !== undefined) byRepair.set(first, [...(byRepair.get(first) ?? []), booking]);
  }
  return inOrder.flatMap((repair) => {
    const all = byRepair.get(repair) ?? [];
    const newest = Math.max(...all.map(({ plan }) => plan));
    return all.length === 0 ? [] : [{ repair, bookings: all.filter(({ plan }) => plan === newest) }];
  });
}

/** What a repair takes: hours, money in minor units, days off the road. null: not known. */
export interface Took {
  readonly hours: number | null;
  readonly cost: number | null;
  readonly daysOff: number | null;
}

export const tookFields = ["hours", "cost", "daysOff"] as const satisfies readonly (keyof Took)[];

export interface ForecastAndMade {
  readonly forecast: Took;
  readonly made: Took;
}

export interface TookTotal {
  /** Repairs of which both are known; only they are summed. */
  readonly known: number;
  readonly forecast: number;
  readonly made: number;
  /** Median of made over forecast; null: of fewer than 20 repairs, which say too little. */
  readonly medianRatio: number | null;
}

/** Fewer outcomes are told as counts. */
const enoughOutcomes = 20;

/** What was forecast and what it took, summed over the repairs of which both are known. */
export function tookTotal(outcomes: readonly ForecastAndMade[], field: keyof Took): TookTotal {
  const both = outcomes.flatMap(({ forecast, made }) => {
    const [a, b] = [forecast[field], made[field]];
    return a === null || b === null ? [] : [{ forecast: a, made: b }];
  });
  const ratios = both
    .flatMap(({ forecast, made }) => (forecast > 0 ? [made / forecast] : []))
    .toSorted((a, b) => a - b);
  return {
    known: both.length,
    forecast: both.reduce((sum, { forecast }) => sum + forecast, 0),
    made: both.reduce((sum, { made }) => sum + made, 0),
    medianRatio: ratios.length < enoughOutcomes ? null : quantileSorted(ratios, 0.5),
  };
}
