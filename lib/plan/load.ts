import type { Booking, KeptPlan } from "../schema/kept-plan.ts";

export interface WeekLoad {
  readonly depot: string;
  readonly week: number;
  readonly bayDays: { readonly used: number; readonly has: number };
  readonly hours: { readonly used: number; readonly has: number };
}

/** What the bookings take of each week of each depot, beside what it has; only the plan's own weeks. */
export function loadOf(
  { bookings }: { readonly bookings: readonly Booking[] },
  { depots, weeks }: Pick<KeptPlan, "depots" | "weeks">,
): readonly WeekLoad[] {
  return depots.flatMap(({ depot, weeks: has }) => {
    const used = Array.from({ length: weeks }, () => ({ bayDays: 0, hours: 0 }));
    for (const booking of bookings) {
      if (booking.depot !== depot) continue;
      for (const { week, bayDays, hours } of booking.span) {
        const at = used[week];
        if (at === undefined) continue;
        at.bayDays += bayDays;
        at.hours += hours;
      }
    }
    return used.map(({ bayDays, hours }, week) => ({
      depot,
      week,
      bayDays: { used: bayDays, has: has[week]?.bayDays ?? 0 },
      hours: { used: hours, has: has[week]?.hours ?? 0 },
    }));
  });
}
