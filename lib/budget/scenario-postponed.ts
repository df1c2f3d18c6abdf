import { addDays, addMonths, daysBetween, mondayOnOrAfter } from "../calendar.ts";
import { downtimeCost, jobSpan } from "../plan/job-span.ts";
import { planProblemOf } from "../plan/problem-of.ts";
import type { PlanProblem } from "../plan/types.ts";
import type { BudgetInputs } from "./inputs.ts";

type Booking = BudgetInputs["bookings"][number];

/** Weeks that a repair may still wait where its workshop is closed on the Monday that it is put off to. */
const mostClosedWeeks = 13;

/**
 * Bookings put off by so many months: each to the first Monday from that day on in whose week its workshop is open. Days out of
 * service cost what they cost in the new weeks, peak or not. A pinned booking stays. Whether the workshop has room is not looked at.
 */
export function postponed(inputs: BudgetInputs, months: number): readonly Booking[] {
  const { bookings, units, workshop, asOf, dropped } = inputs;
  const firstMonday = mondayOnOrAfter(asOf);
  const put = (start: string) => mondayOnOrAfter(addMonths(start, months));
  const weekOf = (start: string) => Math.max(0, Math.floor(daysBetween(firstMonday, start) / 7));
  const lastWeek = bookings.reduce((last, { start }) => Math.max(last, weekOf(put(start))), 0);
  const { problem } = planProblemOf(
    units.map(({ outlook }) => outlook),
    { ...workshop, planWeeks: Math.max(workshop.planWeeks, lastWeek + mostClosedWeeks + 1) },
    { asOf, dropped },
  );
  return bookings.map((booking) => {
    if (booking.isPinned) return booking;
    const start = put(booking.start);
    const placed = placedFrom(problem, booking, weekOf(start));
    return placed === null
      ? { ...booking, start }
      : { ...booking, start: addDays(firstMonday, 7 * placed.week), downtime: placed.downtime };
  });
}

/** The first week from one on in which a repair can begin, and what its days out of service cost then; null: not to be told. */
function placedFrom(
  { units, depots }: PlanProblem,
  booking: Booking,
  from: number,
): { readonly week: number; readonly downtime: number } | null {
  const unit = units.find((one) => one.unit === booking.unit);
  const work = unit?.works.find(({ scope }) => scope === booking.scope);
  const weeks = depots.find(({ depot }) => depot === unit?.depot)?.weeks;
  if (unit === undefined || work === undefined || weeks === undefined) return null;
  for (let week = from; week <= from + mostClosedWeeks; week++) {
    const span = jobSpan(work, weeks, week);
    if (span !== null) return { week, downtime: downtimeCost(unit, weeks, span) };
  }
  return null;
}
