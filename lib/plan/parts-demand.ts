import { addDays, mondayOnOrAfter } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { KeptBooking, PlanScope } from "../schema/kept-plan.ts";
import { orderBy } from "./order-by.ts";
import type { PriceGrowth } from "./types.ts";
import { priceFactors } from "./week-costs.ts";

/** What has to be there, or arranged outside, when a repair begins. */
export const partGroups = ["gasket-set", "valves", "pistons-rings", "machining", "exchange-engine"] as const;
export type PartGroup = (typeof partGroups)[number];

const groupsByScope: Readonly<Record<PlanScope, readonly PartGroup[]>> = {
  "top-end": ["gasket-set", "valves", "machining"],
  "bottom-end": ["gasket-set", "pistons-rings", "machining"],
  both: ["gasket-set", "valves", "pistons-rings", "machining"],
  exchange: ["exchange-engine", "machining"],
};

export interface PartsDemand {
  readonly unit: string;
  readonly depot: string;
  readonly engineModel: string;
  readonly scope: PlanScope;
  /** Monday of the week of need. */
  readonly start: IsoDate;
  readonly groups: readonly PartGroup[];
  /** Minor units, at the prices of that Monday. */
  readonly parts: number;
  readonly machining: number;
  readonly leadDays: number;
  /** Last day on which they can be ordered for the week booked. */
  readonly forWeek: IsoDate;
  /** Day by which to order; never before the plan's own. */
  readonly orderBy: IsoDate;
  /** `early-edge`: long-lead parts of a unit that may fall due before the week booked. */
  readonly because: "week" | "early-edge";
}

/** From so many working days on a lead is long: the order can't wait until the need is likely. Judgement. */
const longLeadDays = 10;

interface When {
  /** Nothing can be ordered before this day. */
  readonly asOf: IsoDate;
  readonly prices: PriceGrowth;
}

/** The parts that a plan's bookings ask for, the first to be ordered first. */
export const partsDemand = (bookings: readonly KeptBooking[], when: When): readonly PartsDemand[] =>
  bookings
    .map((booking) => partsDemandOf(booking, when))
    .toSorted((a, b) => order(a, b, "orderBy") || order(a, b, "start") || order(a, b, "unit"));

/**
 * The parts that a booking asks for, and the day by which to order. The bay is booked for when a repair is likely; parts that take long
 * are decided on the early edge of the window, P10, where that lies before the week booked: common practice, no source.
 */
export function partsDemandOf(booking: KeptBooking, { asOf, prices }: When): PartsDemand {
  const { unit, depot, engineModel, scope, start, work, windows } = booking;
  const grown = priceFactors(prices, start);
  const forWeek = orderBy(booking);
  const [edge] = windows.flatMap(({ p10 }) => (p10 === null ? [] : [p10])).toSorted();
  const isLong = work.leadDays >= longLeadDays;
  const early = isLong && edge !== undefined && edge < start ? orderBy({ start: mondayOf(edge), work }) : forWeek;
  const by = early < asOf ? asOf : early;
  return {
    unit,
    depot,
    engineModel,
    scope,
    start,
    groups: groupsByScope[scope].filter((group) => group !== "machining" || work.machining > 0),
    parts: Math.round(work.parts * grown.parts),
    machining: Math.round(work.machining * grown.labour),
    leadDays: work.leadDays,
    forWeek,
    orderBy: by,
    because: by < forWeek ? "early-edge" : "week",
  };
}

/** Monday of the week in which a date lies. */
const mondayOf = (date: IsoDate): IsoDate => mondayOnOrAfter(addDays(date, -6));

const order = (a: PartsDemand, b: PartsDemand, by: "orderBy" | "start" | "unit"): number =>
  a[by] < b[by] ? -1 : a[by] > b[by] ? 1 : 0;
