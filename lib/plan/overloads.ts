import type { Booking, KeptPlan, Overload, Resource } from "../schema/kept-plan.ts";
import type { Workshop } from "../schema/workshop.ts";

const slack = 1e-6;

type Frame = Pick<KeptPlan, "depots" | "weeks">;
type Limits = Pick<Workshop, "groups" | "spares">;

/** What a booking takes of something in a week, and how much of it there is. */
export interface ResourceUse {
  readonly resource: Resource;
  readonly capacity: number;
  readonly amount: number;
}

/** What one booking takes, by week: all that `overloadsOf` counts. */
export function usesOf(
  { unit, depot, week: start, span, work }: Pick<Booking, "unit" | "depot" | "week" | "span" | "work">,
  { depots, weeks }: Frame,
  { groups, spares }: Limits,
): readonly ResourceUse[] {
  const uses: ResourceUse[] = [];
  const use = (resource: Resource, capacity: number, amount: number) => {
    if (amount > 0 && resource.week < weeks) uses.push({ resource, capacity, amount });
  };
  const has = depots.find((one) => one.depot === depot)?.weeks ?? [];
  for (const { week, bayDays, hours, daysOff } of span) {
    const of = has[week];
    use({ kind: "bay-days", depot, week }, of?.bayDays ?? 0, bayDays);
    use({ kind: "hours", depot, week }, of?.hours ?? 0, hours);
    if (work.needsBuilder) use({ kind: "builder-hours", depot, week }, of?.builderHours ?? 0, hours);
    if (bayDays > 0 || daysOff > 0) use({ kind: "unit", unit, week }, 1, 1);
    if (daysOff <= 0) continue;
    for (const { name, units, mostOut } of groups)
      if (units.includes(unit)) use({ kind: "out-together", group: name, week }, mostOut, 1);
  }
  const spare = work.spareOf === null ? undefined : spares[work.spareOf];
  if (work.spareOf === null || spare === undefined) return uses;
  for (let week = start; week < Math.min(weeks, start + spare.turnaroundWeeks); week++)
    use({ kind: "spares", engineModel: work.spareOf, week }, spare.count, 1);
  return uses;
}

/** A resource as text, alike where it is the same one. */
export const resourceKey = (resource: Resource): string => JSON.stringify(resource);

/** How much of each resource bookings take together, by `resourceKey`. */
export function usedBy(bookings: readonly Booking[], frame: Frame, limits: Limits): Map<string, Overload> {
  const rows = new Map<string, Overload>();
  for (const booking of bookings) {
    for (const { resource, capacity, amount } of usesOf(booking, frame, limits)) {
      const key = resourceKey(resource);
      rows.set(key, { resource, capacity, used: (rows.get(key)?.used ?? 0) + amount });
    }
  }
  return rows;
}

/** Which bookings take of each resource, by `resourceKey`, in the order given. */
export function takersOf<B extends Booking>(
  bookings: readonly B[],
  frame: Frame,
  limits: Limits,
): ReadonlyMap<string, readonly B[]> {
  const takers = new Map<string, B[]>();
  for (const booking of bookings) {
    for (const { resource } of usesOf(booking, frame, limits)) {
      const key = resourceKey(resource);
      const known = takers.get(key);
      if (known === undefined) takers.set(key, [booking]);
      else known.push(booking);
    }
  }
  return takers;
}

/** Whether more is taken than there is. */
export const isOver = ({ used, capacity }: Pick<Overload, "used" | "capacity">): boolean => used > capacity + slack;

/**
 * Where bookings take more than there is, by week: bay days, hours, hours of those who build bottom ends, spare engines, units out
 * at once, works of one unit at once. What other weeks than the plan's have is not asked.
 */
export const overloadsOf = (bookings: readonly Booking[], frame: Frame, limits: Limits): readonly Overload[] =>
  [...usedBy(bookings, frame, limits).values()]
    .filter(isOver)
    .toSorted(
      (a, b) => a.resource.week - b.resource.week || (resourceKey(a.resource) < resourceKey(b.resource) ? -1 : 1),
    );
