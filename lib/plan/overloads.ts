import type { Booking, KeptPlan, Overload, Resource } from "../schema/kept-plan.ts";
import type { Workshop } from "../schema/workshop.ts";

const slack = 1e-6;

/**
 * Where bookings take more than there is, by week: bay days, hours, hours of those who build bottom ends, spare engines, units out
 * at once, works of one unit at once. What other weeks than the plan's have is not asked.
 */
export function overloadsOf(
  bookings: readonly Booking[],
  { depots, weeks }: Pick<KeptPlan, "depots" | "weeks">,
  { groups, spares }: Pick<Workshop, "groups" | "spares">,
): readonly Overload[] {
  const rows = new Map<string, { readonly resource: Resource; readonly capacity: number; used: number }>();
  const use = (resource: Resource, capacity: number, amount: number) => {
    if (amount <= 0 || resource.week >= weeks) return;
    const key = JSON.stringify(resource);
    const row = rows.get(key) ?? { resource, capacity, used: 0 };
    row.used += amount;
    rows.set(key, row);
  };
  for (const { unit, depot, week: start, span, work } of bookings) {
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
    if (work.spareOf === null || spare === undefined) continue;
    for (let week = start; week < Math.min(weeks, start + spare.turnaroundWeeks); week++)
      use({ kind: "spares", engineModel: work.spareOf, week }, spare.count, 1);
  }
  return [...rows.values()]
    .filter(({ used, capacity }) => used > capacity + slack)
    .toSorted(
      (a, b) => a.resource.week - b.resource.week || (JSON.stringify(a.resource) < JSON.stringify(b.resource) ? -1 : 1),
    );
}
