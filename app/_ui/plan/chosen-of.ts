import type { Store } from "../../../db/store.ts";
import { costNow, dropped, type MoveGround, moveTo, pinned, splitInTwo } from "../../../lib/plan/moves.ts";
import type { KeptBooking } from "../../../lib/schema/kept-plan.ts";
import { type PlanNow, unitInPlan } from "../../_jobs/plan-now.ts";
import type { PlanView } from "./address.ts";
import type { Chosen } from "./chosen-sheet.tsx";
import { notBooking } from "./wait-words.ts";

/** What is told of the unit that an address chooses; null: it chooses none, or nothing can be planned for it. */
export async function chosenOf(store: Store, now: PlanNow, view: PlanView): Promise<Chosen | null> {
  if (view.unit === null) return null;
  const of = await unitInPlan(store, now.row, view.unit);
  if (of === null) return null;
  const { unit } = view;
  const mine = now.bookings.filter((booking) => booking.unit === unit);
  const booking = mine.find(({ scope }) => scope === view.scope) ?? (view.scope === null ? mine[0] : undefined) ?? null;
  const scope = booking?.scope ?? view.scope ?? of.weeks[0]?.scope;
  if (scope === undefined) return null;
  const { bookings, choices, limits } = now;
  const ground: MoveGround = {
    unit,
    depot: of.depot,
    weeks: of.weeks,
    leaving: of.leaving,
    choices,
    bookings,
    ...limits,
  };
  return {
    unit,
    scope,
    booking,
    costNow: booking === null ? null : costNow(of.weeks, booking),
    weeks: of.weeks.filter((week) => week.scope === scope),
    left: notBooking(of.leaving, scope),
    move: view.to === null || view.to === booking?.start ? null : moveTo(ground, scope, view.to),
    split: booking === null ? null : splitInTwo(ground, booking),
    pin: booking === null ? null : pinned(ground, booking),
    drop: booking === null ? null : dropped(ground, booking),
    seen: choices.filter((choice) => choice.unit === unit).map(({ id }) => id),
  };
}

/** The chosen booking where a move would put it, for the board; null: it stays. */
export function movedBooking({ booking, move, weeks }: Chosen, view: PlanView): KeptBooking | null {
  if (move === null || booking === null) return null;
  const at = weeks.find(({ start }) => start === view.to);
  return at === undefined
    ? null
    : { ...booking, week: at.week, start: at.start, cost: at.cost, span: at.span, isPinned: true };
}
