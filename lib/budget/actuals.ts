import { minorUnits } from "../plan/works-of.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { RecordedRepair } from "../schema/kept-budget.ts";
import { classCostsOf, type Workshop } from "../schema/workshop.ts";

/** What was spent on repairs, as far as it was recorded. In minor units. */
export interface Spent {
  /** Costs and days off the road together: the same kind of money as a forecast. */
  readonly amount: number;
  /** Of it, what recorded days off the road cost. */
  readonly downtime: number;
  readonly repairs: number;
  /** Repairs whose cost nobody recorded: it is in no amount. */
  readonly withoutCost: number;
  /** Repairs whose days off the road nobody recorded, or that are kept without: they are in no amount. */
  readonly withoutDays: number;
  readonly labourHours: number;
}

/** One repair and what it came to, 0 where that was not recorded; its days off the road are in `amount`. */
export type RepairAmount = Pick<RecordedRepair, "depot" | "engineModel" | "date" | "scope"> & {
  readonly amount: number;
  readonly downtime: number;
};

export interface Actuals extends Spent {
  /** "2026-08"; months without a repair are left out. */
  readonly months: readonly (Spent & { readonly month: string })[];
  /** By unit, the most first, with each of its repairs. */
  readonly units: readonly (Spent & { readonly unit: string; readonly amounts: readonly RepairAmount[] })[];
}

/**
 * Recorded repairs from a day on, up to and with another. A repair counts on the day it was made. What a repair cost is what was
 * recorded of it: it is not guessed from hours. Its recorded days off the road come to it, at what a day of its class of units costs, as
 * forecasts have them; a recorded cost is taken to hold none.
 * @param workshop in whose currency costs are recorded, and by which days are priced
 */
export function actualsOf(
  repairs: readonly RecordedRepair[],
  { from, to, workshop }: { readonly from: IsoDate; readonly to: IsoDate; readonly workshop: Prices },
): Actuals {
  const within = repairs.filter(({ date }) => date >= from && date <= to);
  const by = (keyOf: (repair: RecordedRepair) => string) => {
    const keys = [...new Set(within.map(keyOf))].toSorted();
    return keys.map(
      (key) =>
        [
          key,
          spentOn(
            within.filter((one) => keyOf(one) === key),
            workshop,
          ),
        ] as const,
    );
  };
  return {
    ...spentOn(within, workshop),
    months: by(({ date }) => date.slice(0, 7)).map(([month, spent]) => ({ month, ...spent })),
    units: by(({ unit }) => unit)
      .map(([unit, spent]) => ({
        unit,
        ...spent,
        amounts: within
          .filter((one) => one.unit === unit)
          .map((one) => {
            const { depot, engineModel, date, scope } = one;
            const downtime = downtimeOf(one, workshop);
            return { depot, engineModel, date, scope, downtime, amount: costOf(one, workshop) + downtime };
          }),
      }))
      .toSorted((a, b) => b.amount - a.amount || (a.unit < b.unit ? -1 : 1)),
  };
}

type Prices = Pick<Workshop, "currency" | "anyClass" | "unitClasses">;

function spentOn(repairs: readonly RecordedRepair[], workshop: Prices): Spent {
  const spent = { amount: 0, downtime: 0, repairs: repairs.length, withoutCost: 0, withoutDays: 0, labourHours: 0 };
  for (const repair of repairs) {
    const downtime = downtimeOf(repair, workshop);
    spent.amount += costOf(repair, workshop) + downtime;
    spent.downtime += downtime;
    spent.labourHours += repair.labourHours ?? 0;
    if (repair.cost === null) spent.withoutCost++;
    if (repair.downtimeDays == null) spent.withoutDays++;
  }
  return spent;
}

/** Rounded one by one, so that any grouping of repairs adds up to the same. */
const costOf = ({ cost }: RecordedRepair, { currency }: Prices): number =>
  Math.round((cost ?? 0) * minorUnits(currency));

/** What its days off the road cost, at what a day costs out of any peak: nobody recorded which days they were. */
const downtimeOf = ({ downtimeDays, unitClass = null }: RecordedRepair, workshop: Prices): number =>
  Math.round((downtimeDays ?? 0) * classCostsOf(workshop, unitClass).dayOff * minorUnits(workshop.currency));
