import type { Booking, KeptPlan, OffBest, Overload } from "../schema/kept-plan.ts";
import type { Workshop } from "../schema/workshop.ts";
import type { WaitWeek } from "./can-wait.ts";
import { isOver, resourceKey, usedBy, usesOf } from "./overloads.ts";
import { totalOf } from "./types.ts";

/**
 * Bookings that stand in another week than their best: how much that costs, what keeps them out of cheaper weeks, and what would let
 * them in.
 */

/** From this share of what a booking is expected to cost on its week is told as not its best. Judgement. */
const worthTelling = 0.02;
/** Ways to let a booking into a cheaper week that are told, each by another kind of constraint. */
const waysTold = 3;
/** A way that saves less than this share of what the week costs too much is no answer to it. */
const worthOfWay = 0.25;

interface Ground {
  /** Every booking of the plan, the ones asked about among them. */
  readonly bookings: readonly Booking[];
  readonly plan: Pick<KeptPlan, "depots" | "weeks">;
  readonly workshop: Pick<Workshop, "groups" | "spares">;
}

/**
 * Tells of a booking what its week costs above the best week of the same repair, room or no room, and what would have to be found to
 * have it in a cheaper one; undefined: its week is its best, or as good as.
 * @returns a function of a booking and every week of its unit; what all bookings take is counted once, for all of them
 */
export function offBestOf({
  bookings,
  plan,
  workshop,
}: Ground): (booking: Booking, weeks: readonly WaitWeek[]) => OffBest | undefined {
  const used = usedBy(bookings, plan, workshop);
  return (booking, weeks) => {
    const above = aboveBest(booking, weeks);
    if (above === undefined) return undefined;
    const { cost, start, extra, same } = above;
    const mine = new Map(
      usesOf(booking, plan, workshop).map(({ resource, amount }) => [resourceKey(resource), amount]),
    );
    const lacksAt = ({ week, span, work }: WaitWeek): readonly Overload[] =>
      usesOf({ unit: booking.unit, depot: booking.depot, week, span, work }, plan, workshop).flatMap(
        ({ resource, capacity, amount }) => {
          const key = resourceKey(resource);
          const others = (used.get(key)?.used ?? 0) - (mine.get(key) ?? 0);
          const over = { resource, capacity, used: others + amount };
          return isOver(over) ? [over] : [];
        },
      );
    return { start, extra, ways: cheapestWays(same, { cost, extra, lacksAt }) };
  };
}

/** How much a booking's week costs above the best one of the same repair; undefined: not so much that it is worth telling. */
export function aboveBest(booking: Pick<Booking, "scope" | "start" | "cost">, weeks: readonly WaitWeek[]) {
  const same = weeks.filter(({ scope }) => scope === booking.scope);
  const cost = totalOf(same.find(({ start }) => start === booking.start)?.cost ?? booking.cost);
  const [best] = same.toSorted((a, b) => totalOf(a.cost) - totalOf(b.cost) || a.week - b.week);
  if (best === undefined) return undefined;
  const extra = cost - totalOf(best.cost);
  return extra > worthTelling * cost ? { start: best.start, extra, cost, same } : undefined;
}

/** For each kind of what is missing, the cheapest week that only this keeps the booking out of; what saves most first. */
function cheapestWays(
  weeks: readonly WaitWeek[],
  {
    cost,
    extra,
    lacksAt,
  }: {
    readonly cost: number;
    readonly extra: number;
    readonly lacksAt: (week: WaitWeek) => readonly Overload[];
  },
): OffBest["ways"] {
  const ways = new Map<string, OffBest["ways"][number]>();
  for (const week of weeks) {
    const saves = cost - totalOf(week.cost);
    if (saves < worthOfWay * extra) continue;
    const lacks = lacksAt(week);
    const kind = [...new Set(lacks.map(({ resource: { week: _, ...of } }) => JSON.stringify(of)))].toSorted().join();
    const known = ways.get(kind);
    const isBetter = known === undefined || saves > known.saves || (saves === known.saves && week.start < known.start);
    if (isBetter) ways.set(kind, { start: week.start, saves, lacks });
  }
  return [...ways.values()].toSorted((a, b) => b.saves - a.saves || (a.start < b.start ? -1 : 1)).slice(0, waysTold);
}
