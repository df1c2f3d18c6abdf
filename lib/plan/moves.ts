import type { IsoDate } from "../schema/facts.ts";
import type { Booking, KeptPlan, Overload, PlanScope, RepairClass, WeekCost } from "../schema/kept-plan.ts";
import type { Workshop } from "../schema/workshop.ts";
import type { Choice } from "./amended.ts";
import type { WaitWeek } from "./can-wait.ts";
import { cures } from "./cures.ts";
import { overloadsOf } from "./overloads.ts";
import { totalOf } from "./types.ts";

/** A change of one unit's bookings that a person may take: what is chosen, what it costs more, and where it then is too much. */
export interface Move {
  readonly chosen: readonly Choice[];
  /** Expected cost before and after, each summed over the repairs concerned; minor units. */
  readonly before: WeekCost;
  readonly after: WeekCost;
  readonly extra: number;
  /** Where bookings then take more than there is, and did not before. */
  readonly overloads: readonly Overload[];
}

/** What one unit's moves are weighed by. */
export interface MoveGround {
  readonly unit: string;
  readonly depot: string;
  /** Every repair of it in every week in which it can begin. */
  readonly weeks: readonly WaitWeek[];
  readonly leaving: Readonly<Record<RepairClass, WeekCost | null>>;
  /** What people chose for the unit before. */
  readonly choices: readonly Choice[];
  /** All bookings of the plan as it stands. */
  readonly bookings: readonly Booking[];
  readonly plan: Pick<KeptPlan, "depots" | "weeks">;
  readonly workshop: Pick<Workshop, "groups" | "spares">;
}

const nothing: WeekCost = { work: 0, downtime: 0, early: 0, late: 0 };

const sum = (costs: readonly WeekCost[]): WeekCost =>
  costs.reduce(
    (a, b) => ({
      work: a.work + b.work,
      downtime: a.downtime + b.downtime,
      early: a.early + b.early,
      late: a.late + b.late,
    }),
    nothing,
  );

const weekOf = ({ weeks }: MoveGround, scope: PlanScope, start: IsoDate): WaitWeek | undefined =>
  weeks.find((week) => week.scope === scope && week.start === start);

/** A repair in a week, in place of what the unit has booked of the same, or of leaving it. null: not possible in that week. */
export function moveTo(ground: MoveGround, scope: PlanScope, start: IsoDate): Move | null {
  const at = weekOf(ground, scope, start);
  return at === undefined ? null : moveOf(ground, [at]);
}

/** Both ends apart: the top end in the week of the booking, the bottom end in its cheapest week after. null: it can't be. */
export function splitInTwo(ground: MoveGround, booking: Pick<Booking, "scope" | "start">): Move | null {
  if (booking.scope !== "both") return null;
  const top = weekOf(ground, "top-end", booking.start);
  if (top === undefined) return null;
  const done = Math.max(...top.span.map(({ week }) => week));
  const bottoms = ground.weeks.filter(({ scope, week }) => scope === "bottom-end" && week > done);
  const bottom = bottoms.toSorted((a, b) => totalOf(a.cost) - totalOf(b.cost) || a.week - b.week)[0];
  return bottom === undefined ? null : moveOf(ground, [top, bottom]);
}

/** The booking is left until after the plan. */
export function dropped(ground: MoveGround, { scope }: Pick<Booking, "scope">): Move {
  const mine = bookedFor(ground, cures(scope));
  const after = sum(cures(scope).flatMap((of) => ground.leaving[of] ?? []));
  return {
    ...costing(ground, mine, after),
    chosen: [...keptChoices(ground, cures(scope)), { unit: ground.unit, scope, date: null }],
    overloads: [],
  };
}

/** What leaving a repair costs more than the week that it is weighed against, which begins on that Monday; minor units. */
export interface DropCost {
  readonly extra: number;
  readonly week: IsoDate;
}

/**
 * What it costs that a repair is dropped: leaving it, less the week in which the plan had it booked, or its cheapest one where the
 * plan has it not or it can't begin then any more. null: it can begin in no week.
 */
export function dropCost(
  { weeks, leaving }: Pick<MoveGround, "weeks" | "leaving">,
  scope: PlanScope,
  booked: IsoDate | null,
): DropCost | null {
  const mine = weeks.filter((week) => week.scope === scope);
  const [cheapest] = mine.toSorted((a, b) => totalOf(a.cost) - totalOf(b.cost) || a.week - b.week);
  const at = mine.find(({ start }) => start === booked) ?? cheapest;
  if (at === undefined) return null;
  const left = sum(cures(scope).flatMap((of) => leaving[of] ?? []));
  return { extra: totalOf(left) - totalOf(at.cost), week: at.start };
}

/** The booking stays where it is, whatever else is planned. */
export const pinned = (ground: MoveGround, { scope, start }: Pick<Booking, "scope" | "start">): readonly Choice[] => [
  ...keptChoices(ground, cures(scope)),
  { unit: ground.unit, scope, date: start },
];

const shares = (scope: PlanScope, touched: readonly RepairClass[]): boolean =>
  cures(scope).some((of) => touched.includes(of));

/** What of the unit's bookings a change of some classes replaces. */
const bookedFor = ({ bookings, unit }: MoveGround, touched: readonly RepairClass[]): readonly Booking[] =>
  bookings.filter((booking) => booking.unit === unit && shares(booking.scope, touched));

/** What was chosen for the unit's other class holds on: a choice stands in place of all that was chosen for the unit before. */
const keptChoices = ({ choices, unit }: MoveGround, touched: readonly RepairClass[]): readonly Choice[] =>
  choices.flatMap((choice) =>
    choice.unit === unit && !shares(choice.scope, touched) ? [{ unit, scope: choice.scope, date: choice.date }] : [],
  );

function moveOf(ground: MoveGround, to: readonly WaitWeek[]): Move {
  const { unit, depot, bookings, plan, workshop } = ground;
  const touched = to.flatMap(({ scope }) => cures(scope));
  const mine = bookedFor(ground, touched);
  // What was booked together and is now put right in part alone: the other part is left.
  const left = [...new Set(mine.flatMap(({ scope }) => cures(scope)))].filter((of) => !touched.includes(of));
  const after = sum([...to.map(({ cost }) => cost), ...left.flatMap((of) => ground.leaving[of] ?? [])]);
  const placed = to.map(
    ({ scope, week, start, work, cost, span }): Booking => ({
      unit,
      depot,
      scope,
      week,
      start,
      work,
      cost,
      span,
      isPinned: true,
    }),
  );
  const then = [...bookings.filter((booking) => !mine.includes(booking)), ...placed];
  const known = new Map(
    overloadsOf(bookings, plan, workshop).map((over) => [JSON.stringify(over.resource), over.used]),
  );
  return {
    ...costing(ground, mine, after, touched),
    chosen: [...keptChoices(ground, touched), ...to.map(({ scope, start }) => ({ unit, scope, date: start }))],
    overloads: overloadsOf(then, plan, workshop).filter(
      (over) => over.used > (known.get(JSON.stringify(over.resource)) ?? 0) + 1e-6,
    ),
  };
}

/** What a booking's week costs by what is known now; as it was planned where it can't begin then any more. */
export const costNow = (
  weeks: readonly WaitWeek[],
  { scope, start, cost }: Pick<Booking, "scope" | "start" | "cost">,
): WeekCost => weeks.find((week) => week.scope === scope && week.start === start)?.cost ?? cost;

/** Before: what was booked, as it would be weighed now; of what was not, leaving it. */
function costing(
  ground: MoveGround,
  mine: readonly Booking[],
  after: WeekCost,
  touched: readonly RepairClass[] = [],
): Pick<Move, "before" | "after" | "extra"> {
  const booked = new Set(mine.flatMap(({ scope }) => cures(scope)));
  const before = sum([
    ...mine.map((booking) => costNow(ground.weeks, booking)),
    ...touched.filter((of) => !booked.has(of)).flatMap((of) => ground.leaving[of] ?? []),
  ]);
  return { before, after, extra: totalOf(after) - totalOf(before) };
}
