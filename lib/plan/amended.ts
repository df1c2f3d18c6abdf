import type { IsoDate } from "../schema/facts.ts";
import type { Booking, KeptBooking, KeptPlan, PlanScope, RepairClass } from "../schema/kept-plan.ts";
import type { WaitWeek } from "./can-wait.ts";
import { cures } from "./cures.ts";
import { aboutBooking } from "./keep-plan.ts";
import { aboveBest } from "./off-best.ts";
import type { UnitOutlook } from "./problem-of.ts";

/** What a person chose for a repair after the plan was made: its week, or (null) that it is not to be booked. */
export interface Choice {
  readonly unit: string;
  readonly scope: PlanScope;
  readonly date: IsoDate | null;
}

/** What is known now of a unit that somebody chose something for. */
export interface ChosenUnit {
  readonly outlook: UnitOutlook;
  readonly depot: string;
  /** Every repair in every week in which it can begin. */
  readonly weeks: readonly WaitWeek[];
}

export interface Amended {
  /** By week, then unit. */
  readonly bookings: readonly KeptBooking[];
  /** Choices that no week of the plan allows. */
  readonly impossible: readonly Choice[];
  /** How many units stand otherwise than the plan was made. */
  readonly changed: number;
}

type Frame = Pick<KeptPlan, "bookings" | "firstMonday" | "weeks">;

/** A plan with what was chosen since laid over it: bookings move to where people want them, and nothing else moves. */
export function amendedPlan(
  plan: Frame,
  choices: readonly Choice[],
  unitOf: (unit: string) => ChosenUnit | undefined,
): Amended {
  const impossible: Choice[] = [];
  const chosen = byUnit(choices);
  const pins = new Set(choices.flatMap(({ date, ...of }) => (date === null ? [] : [keyOf({ ...of, start: date })])));
  const bookings: KeptBooking[] = [];
  for (const booking of plan.bookings) {
    if (!chosen.has(booking.unit)) bookings.push({ ...booking, isPinned: false });
  }
  for (const [unit, of] of chosen) {
    const before = plan.bookings.filter((booking) => booking.unit === unit);
    const wished = of.map((choice) => ({ choice, booked: bookedBy(choice, { ...plan, bookings: before }, unitOf) }));
    impossible.push(...wished.flatMap(({ choice, booked }) => (booked === null ? [choice] : [])));
    // What can't be kept changes nothing: the plan's own booking stays.
    const kept = wished.filter(({ booked }) => booked !== null);
    const touched = new Set(kept.flatMap(({ choice }): readonly RepairClass[] => cures(choice.scope)));
    bookings.push(...before.filter(({ scope }) => !cures(scope).some((one) => touched.has(one))));
    bookings.push(...kept.flatMap(({ booked }) => booked ?? []));
  }
  const told = bookings
    .map((booking) => ({ ...booking, isPinned: pins.has(keyOf(booking)) }))
    .toSorted((a, b) => a.week - b.week || (a.unit < b.unit ? -1 : 1));
  return { bookings: told, impossible, changed: changedUnits(plan.bookings, told) };
}

const keyOf = ({ unit, scope, start }: Pick<Booking, "unit" | "scope" | "start">): string =>
  `${unit}\u0000${scope}\u0000${start}`;

/** The booking that a choice asks for; none where it drops one; null: no week of the plan allows it. */
function bookedBy(
  choice: Choice,
  plan: Frame,
  unitOf: (unit: string) => ChosenUnit | undefined,
): readonly KeptBooking[] | null {
  const { date } = choice;
  if (date === null) return [];
  const booked =
    plan.bookings.find((booking) => keyOf(booking) === keyOf({ ...choice, start: date })) ??
    bookingAt(unitOf(choice.unit), choice, plan);
  return booked === undefined ? null : [booked];
}

/**
 * A repair of a unit in the week that begins on a date; undefined: it can't begin then. How sure its class is and when its limits are
 * met are as the plan told them of the same repair: another week changes neither. What it had not booked is told by what is known now.
 */
export function bookingAt(
  of: ChosenUnit | undefined,
  { scope, date }: Pick<Choice, "scope" | "date">,
  plan: Frame,
): KeptBooking | undefined {
  const at = of?.weeks.find((week) => week.scope === scope && week.start === date);
  if (of === undefined || at === undefined) return undefined;
  const { week, start, work, cost, span } = at;
  const { unit } = of.outlook;
  const above = aboveBest(at, of.weeks);
  return {
    unit,
    depot: of.depot,
    scope,
    week,
    start,
    work,
    cost,
    span,
    isPinned: true,
    ...aboutBooking(of.outlook, work, plan),
    ...toldOf(plan.bookings.find((booking) => booking.unit === unit && booking.scope === scope)),
    // A person put it there: what keeps it from a cheaper week is that.
    ...(above === undefined ? {} : { offBest: { start: above.start, extra: above.extra, ways: [] } }),
  };
}

const toldOf = (booking: KeptBooking | undefined): Partial<Pick<KeptBooking, "sure" | "windows">> =>
  booking === undefined ? {} : { sure: booking.sure, windows: booking.windows };

function changedUnits(before: readonly KeptBooking[], after: readonly KeptBooking[]): number {
  const [was, is] = [standing(before), standing(after)];
  const units = new Set([...was.keys(), ...is.keys()]);
  return [...units].filter((unit) => was.get(unit) !== is.get(unit)).length;
}

const standing = (bookings: readonly KeptBooking[]): ReadonlyMap<string, string> =>
  new Map([...byUnit(bookings)].map(([unit, all]) => [unit, all.map(keyOf).toSorted().join()]));

function byUnit<T extends { readonly unit: string }>(all: readonly T[]): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const one of all) groups.set(one.unit, [...(groups.get(one.unit) ?? []), one]);
  return groups;
}
