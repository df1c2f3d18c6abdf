import type { IsoDate } from "./facts.ts";
import type { planScopes } from "./workshop.ts";

/**
 * A plan as it is kept and shown. Weeks are those of ISO 8601, Monday to Sunday, counted from 0 at the plan's first Monday.
 * Money is in minor units of the currency; expected amounts are not rounded.
 */

/** What is renewed: valves and gasket, rings and bores, both, or the whole engine by a spare one. */
export type PlanScope = (typeof planScopes)[number];

export type RepairClass = "topEnd" | "bottomEnd";

/** One way to put a unit right, planned. */
export interface Work {
  readonly scope: PlanScope;
  readonly cures: readonly RepairClass[];
  /** At the date of the prices. */
  readonly labour: number;
  readonly parts: number;
  readonly machining: number;
  readonly labourHours: number;
  /** Working days that it stands in a bay. */
  readonly bayDays: number;
  /** Calendar days that the unit is off the road, at least those in the bay: the head may be away at the machinist's. */
  readonly daysOff: number;
  /** Working days from the order until parts and machining can be had. */
  readonly leadDays: number;
  /** Needs one of the few people who build bottom ends. */
  readonly needsBuilder: boolean;
  /** Engine model of which it takes a spare engine; null: none. */
  readonly spareOf: string | null;
}

/** What one repair in one week is expected to cost, by what it is spent on. */
export interface WeekCost {
  /** Labour, parts and machining at the prices of the plan's first Monday. */
  readonly work: number;
  /** The unit's days out of service. */
  readonly downtime: number;
  /** Life of what is renewed that is given away by being early. */
  readonly early: number;
  /** Running on past the limit until then, and failures before it. */
  readonly late: number;
}

/** What a repair takes of one week. */
export interface WeekUse {
  readonly week: number;
  readonly bayDays: number;
  readonly hours: number;
  /** Calendar days off the road. */
  readonly daysOff: number;
}

/** One week of a depot's workshop. */
export interface DepotWeek {
  /** Working days on which it is open: 0 to 7. */
  readonly openDays: number;
  /** What is left for these repairs: bay days, hours, hours of those who build bottom ends. */
  readonly bayDays: number;
  readonly hours: number;
  readonly builderHours: number;
  /** Share of its days that are of a peak: 0 to 1. */
  readonly peakShare: number;
}

/** What there is so much of in a week. */
export type Resource =
  | { readonly kind: "bay-days" | "hours" | "builder-hours"; readonly depot: string; readonly week: number }
  /** A unit itself: it is in for one work at a time. */
  | { readonly kind: "unit"; readonly unit: string; readonly week: number }
  | { readonly kind: "out-together"; readonly group: string; readonly week: number }
  | { readonly kind: "spares"; readonly engineModel: string; readonly week: number };

/** What pins take above what there is. */
export interface Overload {
  readonly resource: Resource;
  readonly capacity: number;
  readonly used: number;
}

/** A booking that stays where it is. */
export interface Pin {
  readonly unit: string;
  readonly scope: PlanScope;
  readonly week: number;
}

/** `sold`: the unit is by then; `twice`: an earlier pin of it puts the same right. */
export type WhyImpossible = "unit" | "work" | "sold" | "twice" | "closed";

export type WhyLeftOut = "retired" | "too-few-tests" | "no-depot" | "no-costs";

/** Dates by which a limit of a class is met with probability 0.1, 0.5 and 0.9; null: not within the forecast. */
export interface ClassWindow {
  readonly of: RepairClass;
  readonly p10: IsoDate | null;
  readonly p50: IsoDate | null;
  readonly p90: IsoDate | null;
}

export interface Booking {
  readonly unit: string;
  readonly depot: string;
  readonly scope: PlanScope;
  readonly week: number;
  /** Monday of the week. */
  readonly start: IsoDate;
  readonly work: Work;
  /** Expected, in minor units. */
  readonly cost: WeekCost;
  /** What it takes of each week. */
  readonly span: readonly WeekUse[];
  readonly isPinned: boolean;
}

export interface KeptBooking extends Booking {
  readonly engineModel: string;
  /** Probability that it is this class that falls due, if one does within the plan; null: it cures both, or none does. */
  readonly sure: number | null;
  readonly windows: readonly ClassWindow[];
  /** Its week has gone by: the Monday of it. What it takes of the weeks is placed in later ones. */
  readonly overdueSince?: IsoDate;
  /** The same repair in the first open week from its likely date on, where the workshop is closed on that date. */
  readonly instead?: { readonly week: number; readonly start: IsoDate; readonly cost: WeekCost } | null;
  /** Its week costs well more than its best one; none: it is the best, or as good as. */
  readonly offBest?: OffBest;
}

/** What a booking's week costs above the best week of the same repair, and what would let it into a cheaper one. */
export interface OffBest {
  /** Monday of its best week. */
  readonly start: IsoDate;
  /** Expected, in minor units. */
  readonly extra: number;
  /** Cheaper weeks, what each saves and what would have to be found for it beside all that is booked; the one that saves most first. */
  readonly ways: readonly { readonly start: IsoDate; readonly saves: number; readonly lacks: readonly Overload[] }[];
}

/** A repair that pays within the plan but found no room. */
export interface NotFitted {
  readonly unit: string;
  readonly of: readonly RepairClass[];
  /** Its best week if there were room, and what not having it costs. */
  readonly bestWeek: number;
  readonly scope: PlanScope;
  readonly extra: number;
}

export interface KeptNotFitted extends NotFitted {
  /** What is missing for it in its best week. */
  readonly lacks: readonly Overload[];
}

/** A repair that may fall due within the plan, where waiting for the next test costs less than any week for it. */
export interface Waiting {
  readonly unit: string;
  readonly of: RepairClass;
  /** Probability that the limit is met before the plan ends, or before the unit is sold. */
  readonly chance: number;
  /** Of a unit that is sold within the plan: Monday of the week of its sale, and the probability by the plan's end if it were kept. */
  readonly sold?: { readonly start: IsoDate; readonly ifKept: number };
}

export interface KeptPlan {
  /** Counted up as this shape changes: an older plan is made anew. */
  readonly format: number;
  readonly firstMonday: IsoDate;
  readonly weeks: number;
  readonly currency: string;
  /** By week, then unit. */
  readonly bookings: readonly KeptBooking[];
  readonly notFitted: readonly KeptNotFitted[];
  /** Whatever the chance, the likeliest first. */
  readonly waiting: readonly Waiting[];
  readonly leftOut: readonly { readonly unit: string; readonly why: WhyLeftOut }[];
  /** Expected cost of all units, those left until after the plan too. */
  readonly cost: number;
  /** No plan costs less. */
  readonly bound: number;
  readonly isCut: boolean;
  /** What the same costs first come, first served round the same pins, and with nothing booked at all, pins neither. */
  readonly firstComeCost: number;
  readonly nothingBookedCost: number;
  /** What the cheapest plan costs that keeps to no pin and no drop; null: there was none to keep to. */
  readonly unchosenCost: number | null;
  /** Expected cost of each unit, those left until after the plan too, in whole minor units. */
  readonly costByUnit: Readonly<Record<string, number>>;
  readonly overloads: readonly Overload[];
  readonly impossible: readonly { readonly pin: Pin; readonly why: WhyImpossible }[];
  /** Pins outside the plan's weeks. */
  readonly outside: readonly { readonly unit: string; readonly scope: PlanScope; readonly date: IsoDate }[];
  readonly depots: readonly { readonly depot: string; readonly weeks: readonly DepotWeek[] }[];
  /** Of the units booked, keys of the repairs that were on file as it was made: any other one may close a booking. */
  readonly repairsKnown: Readonly<Record<string, readonly string[]>>;
}

/** Format of the plans that this program makes and reads. */
export const planFormat = 5;
