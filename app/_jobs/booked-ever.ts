import { pinsThatStood } from "../../db/plan-choices.ts";
import { type BookingRow, bookingsOf, type PlanRow, planHeads } from "../../db/plans.ts";
import type { Store } from "../../db/store.ts";
import { cures } from "../../lib/plan/cures.ts";
import type { KeptBooking } from "../../lib/schema/kept-plan.ts";
import { unitInPlan } from "./plan-now.ts";

/** A booking that some plan had, as people had it: by its own place in the plan, or by a pin over it (`place` null). */
export interface BookedEver extends Omit<BookingRow, "place"> {
  readonly place: number | null;
  /** Of a pin, keys of the repairs that were on file as it was told. */
  readonly known?: ReadonlySet<string>;
}

/**
 * What plans ever had booked for some units, with the pins laid over the plan that was in force as they were told: in place of what it
 * had booked of the same. Pins that were taken back before their repair count for nothing.
 */
export async function bookedEver(store: Store, units: readonly string[]): Promise<readonly BookedEver[]> {
  const [bookings, pins, heads] = await Promise.all([
    bookingsOf(store, units),
    pinsThatStood(store, units),
    planHeads(store),
  ]);
  const over = pins.flatMap(({ unit, scope, date, at, known }): BookedEver[] => {
    const plan = heads.find(({ madeAt }) => madeAt <= at);
    if (plan === undefined || date === null) return [];
    const isAsPlanned = bookings.some(
      (of) => of.plan === plan.id && of.unit === unit && of.scope === scope && of.start === date,
    );
    if (isAsPlanned) return [];
    const [asOf = plan.asOf] = [plan.asOf, at.slice(0, 10)].toSorted();
    return [{ plan: plan.id, place: null, unit, scope, start: date, asOf, known: new Set(known) }];
  });
  const isReplaced = ({ plan, unit, scope }: BookingRow) =>
    over.some(
      (pin) => pin.plan === plan && pin.unit === unit && cures(pin.scope).some((of) => cures(scope).includes(of)),
    );
  return [...bookings.filter((booking) => !isReplaced(booking)), ...over];
}

/** What is told of a booking beside its unit: what it was to take, where and when. */
export type BookedWork = Pick<KeptBooking, "work" | "depot" | "start">;

/** The work of a booking in its plan; of a pin that the plan had not booked, in its frame by what is known now. null: not known any more. */
export async function workBooked(
  store: Store,
  row: PlanRow,
  { place, unit, scope, start }: BookedEver,
): Promise<BookedWork | null> {
  if (place !== null) return row.plan.bookings[place] ?? null;
  const planned = row.plan.bookings.find((booking) => booking.unit === unit && booking.scope === scope);
  if (planned !== undefined) return { ...planned, start };
  const of = await unitInPlan(store, row, unit);
  const at = of?.weeks.find((week) => week.scope === scope);
  return of === null || at === undefined ? null : { work: at.work, depot: of.depot, start };
}
