import { addDays, daysBetween } from "../calendar.ts";
import type { IsoDate, RepairFact } from "../schema/facts.ts";
import type { Booking, KeptPlan, RepairClass } from "../schema/kept-plan.ts";
import { cures } from "./cures.ts";
import { jobSpan } from "./job-span.ts";
import { mondayOf } from "./week-costs.ts";

/** A repair as it is told apart from the unit's others. */
export const repairKey = ({ date, scope, cylinders }: Pick<RepairFact, "date" | "scope" | "cylinders">): string =>
  JSON.stringify([date, scope, cylinders]);

/** So long after a repair was made it may be put on file and still close the booking that it was made for. Judgement. */
const lateDays = 90;

/**
 * Whether a repair is news to who planned or chose on a day: it was not on file then, and is not one of long ago that was only put on
 * file since.
 * @param known keys of the repairs of its unit that were on file
 */
export const isNewRepair = (repair: RepairFact, known: ReadonlySet<string>, since: IsoDate): boolean =>
  !known.has(repairKey(repair)) && repair.date >= addDays(since, -lateDays);

export interface BookedAndMade<B extends Booking> {
  /** What is still to be made. One whose week has gone by is to be made in the first open one from that of the day on. */
  readonly open: readonly (B & { readonly overdueSince?: IsoDate })[];
  /** Bookings whose repair was recorded, with the first repair that puts right any of what was booked. */
  readonly made: readonly { readonly booking: B; readonly repair: RepairFact }[];
  /** Of these, those of which a class is left. */
  readonly partly: readonly { readonly booking: B; readonly left: readonly RepairClass[] }[];
}

/**
 * What of a plan's bookings stands on a later day.
 * @param known keys of the repairs of a unit that were on file as it was planned, or chosen for
 */
export function stillBooked<B extends Booking>(
  bookings: readonly B[],
  repairs: readonly RepairFact[],
  {
    planAsOf,
    plan,
    asOf,
    known,
  }: {
    readonly planAsOf: IsoDate;
    readonly plan: Pick<KeptPlan, "firstMonday" | "depots">;
    readonly asOf: IsoDate;
    readonly known: (unit: string) => ReadonlySet<string>;
  },
): BookedAndMade<B> {
  const thisWeek = Math.floor(daysBetween(plan.firstMonday, asOf) / 7);
  const open: (B & { readonly overdueSince?: IsoDate })[] = [];
  const made: { booking: B; repair: RepairFact }[] = [];
  const partly: { booking: B; left: readonly RepairClass[] }[] = [];
  const byDate = repairs.filter(({ date }) => date <= asOf).toSorted((a, b) => (a.date < b.date ? -1 : 1));
  for (const booking of bookings) {
    const booked = cures(booking.scope);
    const since = byDate.filter(
      (repair) => repair.unit === booking.unit && isNewRepair(repair, known(booking.unit), planAsOf),
    );
    const repair = since.find(({ scope }) => cures(scope).some((of) => booked.includes(of)));
    if (repair === undefined) {
      open.push(booking.week >= thisWeek ? booking : fromWeekOn(booking, thisWeek, plan));
      continue;
    }
    made.push({ booking, repair });
    const cured = new Set(since.flatMap(({ scope }) => cures(scope)));
    const left = booked.filter((of) => !cured.has(of));
    if (left.length > 0) partly.push({ booking, left });
  }
  return { open, made, partly };
}

/** In the first week from this one on in which its workshop is open, what it takes of the weeks placed anew; its cost stays. */
function fromWeekOn<B extends Booking>(
  booking: B,
  thisWeek: number,
  { firstMonday, depots }: Pick<KeptPlan, "firstMonday" | "depots">,
): B & { readonly overdueSince: IsoDate } {
  const weeks = depots.find(({ depot }) => depot === booking.depot)?.weeks ?? [];
  for (let week = thisWeek; week < weeks.length; week++) {
    const span = jobSpan(booking.work, weeks, week);
    if (span !== null)
      return { ...booking, week, start: mondayOf(firstMonday, week), span, overdueSince: booking.start };
  }
  return { ...booking, week: thisWeek, start: mondayOf(firstMonday, thisWeek), overdueSince: booking.start };
}
