import { daysBetween } from "../calendar.ts";
import type { IsoDate, RepairFact } from "../schema/facts.ts";
import type { Booking } from "../schema/kept-plan.ts";
import { cures } from "./cures.ts";

export interface BookedAndMade<B extends Booking> {
  /** What is still to be made. One whose week has gone by is to be made in that of the day. */
  readonly open: readonly B[];
  /** Bookings whose repair was recorded, with the first repair that puts right any of what was booked. */
  readonly made: readonly { readonly booking: B; readonly repair: RepairFact }[];
}

/**
 * What of a plan's bookings stands on a later day.
 * @param repairs of the units booked; those before the plan's as-of date don't count
 */
export function stillBooked<B extends Booking>(
  bookings: readonly B[],
  repairs: readonly RepairFact[],
  {
    planAsOf,
    firstMonday,
    asOf,
  }: { readonly planAsOf: IsoDate; readonly firstMonday: IsoDate; readonly asOf: IsoDate },
): BookedAndMade<B> {
  const thisWeek = Math.floor(daysBetween(firstMonday, asOf) / 7);
  const open: B[] = [];
  const made: { booking: B; repair: RepairFact }[] = [];
  const since = repairs
    .filter(({ date }) => date >= planAsOf && date <= asOf)
    .toSorted((a, b) => (a.date < b.date ? -1 : 1));
  for (const booking of bookings) {
    const booked = cures(booking.scope);
    const repair = since.find(
      ({ unit, scope }) => unit === booking.unit && cures(scope).some((of) => booked.includes(of)),
    );
    if (repair !== undefined) made.push({ booking, repair });
    else open.push(booking.week >= thisWeek ? booking : { ...booking, week: thisWeek });
  }
  return { open, made };
}
