import { minorUnits } from "../plan/works-of.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { RecordedRepair } from "../schema/kept-budget.ts";

/** What was spent on repairs, as far as their cost was recorded. In minor units. */
export interface Spent {
  readonly amount: number;
  readonly repairs: number;
  /** Repairs whose cost nobody recorded; they are in no amount. */
  readonly withoutCost: number;
  readonly labourHours: number;
}

/** One repair and what it came to, 0 where that was not recorded. */
export type RepairAmount = Pick<RecordedRepair, "depot" | "engineModel" | "date" | "scope"> & {
  readonly amount: number;
};

export interface Actuals extends Spent {
  /** "2026-08"; months without a repair are left out. */
  readonly months: readonly (Spent & { readonly month: string })[];
  /** By unit, the most first, with each of its repairs. */
  readonly units: readonly (Spent & { readonly unit: string; readonly amounts: readonly RepairAmount[] })[];
}

/**
 * Recorded repairs from a day on, up to and with another. A repair counts on the day it was made. What a repair cost is what was
 * recorded of it: it is not guessed from hours, and days out of service are in it only if whoever recorded it put them there.
 */
export function actualsOf(
  repairs: readonly RecordedRepair[],
  { from, to, currency }: { readonly from: IsoDate; readonly to: IsoDate; readonly currency: string },
): Actuals {
  const minor = minorUnits(currency);
  const within = repairs.filter(({ date }) => date >= from && date <= to);
  const by = (keyOf: (repair: RecordedRepair) => string) => {
    const keys = [...new Set(within.map(keyOf))].toSorted();
    return keys.map(
      (key) =>
        [
          key,
          spentOn(
            within.filter((one) => keyOf(one) === key),
            minor,
          ),
        ] as const,
    );
  };
  return {
    ...spentOn(within, minor),
    months: by(({ date }) => date.slice(0, 7)).map(([month, spent]) => ({ month, ...spent })),
    units: by(({ unit }) => unit)
      .map(([unit, spent]) => ({
        unit,
        ...spent,
        amounts: within
          .filter((one) => one.unit === unit)
          .map(({ depot, engineModel, date, scope, cost }) => ({
            depot,
            engineModel,
            date,
            scope,
            amount: amountOf(cost, minor),
          })),
      }))
      .toSorted((a, b) => b.amount - a.amount || (a.unit < b.unit ? -1 : 1)),
  };
}

function spentOn(repairs: readonly RecordedRepair[], minor: number): Spent {
  const spent = { amount: 0, repairs: repairs.length, withoutCost: 0, labourHours: 0 };
  for (const { cost, labourHours } of repairs) {
    spent.amount += amountOf(cost, minor);
    spent.labourHours += labourHours ?? 0;
    if (cost === null) spent.withoutCost++;
  }
  return spent;
}

/** Rounded one by one, so that any grouping of repairs adds up to the same. */
const amountOf = (cost: number | null, minor: number): number => Math.round((cost ?? 0) * minor);
