import { unitReport } from "../../db/assessments.ts";
import { repairFacts } from "../../db/facts.ts";
import { choicesInForce, type PlanChoice } from "../../db/plan-choices.ts";
import { type PlanRow, planInForce } from "../../db/plans.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { amendedPlan, bookingAt, type Choice, type ChosenUnit } from "../../lib/plan/amended.ts";
import { canWait, costOfLeaving } from "../../lib/plan/can-wait.ts";
import { outlookOfReport } from "../../lib/plan/outlook-of.ts";
import { overloadsOf } from "../../lib/plan/overloads.ts";
import { depotsOf, planProblemOf } from "../../lib/plan/problem-of.ts";
import { type BookedAndMade, stillBooked } from "../../lib/plan/still-booked.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import type { KeptBooking, KeptPlan, Overload, RepairClass, WeekCost } from "../../lib/schema/kept-plan.ts";
import type { Workshop } from "../../lib/schema/workshop.ts";
import { asOfDate } from "./as-of.ts";
import { chosenIn, planBasis, withoutChoices } from "./plan-anew.ts";
import { workshopNow } from "./workshop-now.ts";

/** The plan in force as it stands today. */
export interface PlanNow {
  readonly row: PlanRow;
  readonly asOf: IsoDate;
  /** As the plan has them, with what people chose since laid over, without those whose repair was recorded. */
  readonly bookings: readonly KeptBooking[];
  readonly made: BookedAndMade<KeptBooking>["made"];
  readonly choices: readonly PlanChoice[];
  /** Choices that no week of the plan allows. */
  readonly impossible: readonly Choice[];
  /** How many units stand otherwise than the plan was made. */
  readonly changed: number;
  /** By what the workshops have, and which units must not be out together, as told by now. */
  readonly overloads: readonly Overload[];
  readonly limits: LimitsNow;
  /** Facts, settings or prices have changed since it was made; what people chose since is none of these. */
  readonly isBehind: boolean;
  /** What people chose has changed since it was made. */
  readonly isChosenSince: boolean;
}

/** What bookings are held against: the plan's weeks with what the workshops have by now, and the groups and spare engines told by now. */
export interface LimitsNow {
  readonly plan: Pick<KeptPlan, "depots" | "weeks">;
  readonly workshop: Workshop;
}

/** The plan in force as it stands; null: none was made yet. */
export async function planNow(store: Store, now: Date): Promise<PlanNow | null> {
  const row = await planInForce(store);
  if (row === null) return null;
  const [choices, settings, basis, { workshop }] = await Promise.all([
    choicesInForce(store),
    readSettings(store),
    planBasis(store),
    workshopNow(store),
  ]);
  const asOf = asOfDate(settings, now);
  const units = new Map<string, ChosenUnit>();
  // A choice that the plan keeps to already asks for nothing.
  const isKept = ({ unit, scope, date }: PlanChoice) =>
    date === null ||
    row.plan.bookings.some((booking) => booking.unit === unit && booking.scope === scope && booking.start === date);
  for (const unit of new Set(choices.flatMap((choice) => (isKept(choice) ? [] : choice.unit)))) {
    const of = await unitInPlan(store, row, unit);
    if (of !== null) units.set(unit, of);
  }
  const amended = amendedPlan(row.plan, choices, (unit) => units.get(unit));
  const repairs = await repairFacts(store, [...new Set(amended.bookings.map(({ unit }) => unit))]);
  const known = (unit: string) =>
    new Set([
      ...(row.plan.repairsKnown[unit] ?? []),
      ...choices.flatMap((choice) => (choice.unit === unit && choice.at >= row.madeAt ? choice.known : [])),
    ]);
  const told = stillBooked(amended.bookings, repairs, { planAsOf: row.asOf, plan: row.plan, asOf, known });
  const rest = await Promise.all(told.partly.map((partly) => restOf(store, row, partly)));
  const open = [...told.open, ...rest.flatMap(({ booking }) => booking ?? [])].toSorted(
    (a, b) => a.week - b.week || (a.unit < b.unit ? -1 : 1),
  );
  const limits = limitsOf(row, workshop);
  return {
    row,
    asOf,
    bookings: open,
    made: told.made,
    choices,
    impossible: [...amended.impossible, ...rest.flatMap(({ booking, choice }) => (booking === null ? [choice] : []))],
    changed: amended.changed,
    overloads: overloadsOf(open, limits.plan, limits.workshop),
    limits,
    isBehind: withoutChoices(basis) !== withoutChoices(row.basis),
    isChosenSince: chosenIn(basis) !== chosenIn(row.basis),
  };
}

/** In the frame of a plan, what the workshops have and what must not be out together by what is told now. */
function limitsOf({ plan }: PlanRow, workshop: Workshop): LimitsNow {
  const { firstMonday, weeks, depots } = plan;
  const names = depots.map(({ depot }) => depot);
  return { plan: { weeks, depots: depotsOf(names, workshop, { firstMonday, weeks }) }, workshop };
}

/** What is left of a booking of which one class was made, in the week of the whole; null: it can't be then. */
async function restOf(
  store: Store,
  row: PlanRow,
  { booking, left }: BookedAndMade<KeptBooking>["partly"][number],
): Promise<{ readonly booking: KeptBooking | null; readonly choice: Choice }> {
  const scope = left[0] === "bottomEnd" ? ("bottom-end" as const) : ("top-end" as const);
  const choice = { unit: booking.unit, scope, date: booking.start };
  const of = await unitInPlan(store, row, booking.unit);
  const placed = bookingAt(of ?? undefined, choice, row.plan);
  return { booking: placed === undefined ? null : { ...placed, isPinned: booking.isPinned }, choice };
}

/** What is known now of one unit, in the frame of a plan: its weeks, its prices. */
export interface UnitInPlan extends ChosenUnit {
  /** Of each class that it may need, what it costs to leave it until after the plan; null: it has no such need. */
  readonly leaving: Readonly<Record<RepairClass, WeekCost | null>>;
}

/** null: nothing is known of the unit, or nothing can be planned for it. */
export async function unitInPlan(store: Store, row: PlanRow, unit: string): Promise<UnitInPlan | null> {
  const report = await unitReport(store, unit);
  if (report === null) return null;
  const outlook = outlookOfReport(report);
  const { problem } = planProblemOf([outlook], row.workshop, { asOf: row.asOf, dropped: [] });
  const [planned] = problem.units;
  if (planned === undefined) return null;
  return { outlook, depot: planned.depot, weeks: canWait(problem, unit), leaving: costOfLeaving(problem, unit) };
}
