import type { IsoDate } from "../schema/facts.ts";
import type { DepotWeek, Pin, RepairClass, WeekCost, Work } from "../schema/kept-plan.ts";

/**
 * The plan: which unit is repaired in which week. Weeks are those of ISO 8601, Monday to Sunday, counted from 0 at the plan's
 * first Monday; a repair planned for a week begins on its Monday. Money is in minor units of the fleet's currency; expected
 * amounts are not rounded here.
 */

/** What a unit may come to need. */
export interface Need {
  readonly of: RepairClass;
  /**
   * Probability that the limit is met by the beginning of each week, from the plan's first Monday to the end of the
   * forecast; never falls. What is not met by then is taken not to be met.
   */
  readonly crossed: Float64Array;
  /** Weeks since the life of what would be renewed began. */
  readonly ageWeeks: number;
  /** Cost of the repair after a failure over its cost when planned. */
  readonly unplannedFactor: number;
}

/** What running on past a limit costs and risks. */
export interface RunningOn {
  /** Fuel, oil, starting trouble, for each week. */
  readonly perWeek: number;
  /** Chance of a failure in each week. */
  readonly failurePerWeek: number;
  /** Extra cost of a failure beside the dearer repair: what it breaks, recovery, hire. */
  readonly damage: number;
}

export interface PlanUnit {
  readonly unit: string;
  readonly depot: string;
  readonly engineModel: string;
  readonly needs: readonly Need[];
  readonly works: readonly Work[];
  /** A day out of service, and how many times as much in a peak. */
  readonly dayCost: number;
  readonly peakFactor: number;
  /** Weeks that are a peak of its class, beside those of its depot. */
  readonly peakWeeks: ReadonlySet<number>;
  readonly runningOn: RunningOn;
  /** Week in which it is sold; null: not within the forecast. */
  readonly disposalWeek: number | null;
  /** Groups of units of which only so many may be out at once. */
  readonly groups: readonly string[];
  /** Weeks in which it is in the workshop anyway, and for how many days. */
  readonly otherWork: readonly { readonly week: number; readonly days: number }[];
}

export interface PlanDepot {
  readonly depot: string;
  /** From the plan's first week on; more than the plan has, for what runs over its end. */
  readonly weeks: readonly DepotWeek[];
}

/** Growth of prices a year, as a share, from the date of the prices on. */
export interface PriceGrowth {
  readonly priceDate: IsoDate;
  readonly labour: number;
  readonly parts: number;
}

export interface SpareEngines {
  readonly count: number;
  /** Until an engine that came out is ready to go in again. */
  readonly turnaroundWeeks: number;
  /** Engines that come to them, there from a week of the plan on. */
  readonly more?: { readonly count: number; readonly fromWeek: number };
}

export interface PlanProblem {
  /** A Monday. */
  readonly firstMonday: IsoDate;
  /** Weeks in which work may begin: 26 to 104. */
  readonly weeks: number;
  /** By how many weeks plans to come are taken to miss the right week of a repair that this one leaves to them. */
  readonly missWeeks: number;
  /** A second class of repair within so many weeks of the first is made together with it. */
  readonly togetherWeeks: number;
  readonly units: readonly PlanUnit[];
  readonly depots: readonly PlanDepot[];
  readonly prices: PriceGrowth;
  /** How many of a group may be out in the same week. */
  readonly mostOut: Readonly<Record<string, number>>;
  /** By engine model. */
  readonly spares: Readonly<Record<string, SpareEngines>>;
  readonly pins: readonly Pin[];
  /** Classes of repair that are not to be booked, by unit: a person dropped them. */
  readonly dropped: readonly { readonly unit: string; readonly of: RepairClass }[];
}

/** A plan is proven to cost at most this share more than the cheapest, unless its time was up; differences below it are slack. */
export const planGap = 0.001;

export const totalOf = ({ work, downtime, early, late }: WeekCost): number => work + downtime + early + late;
