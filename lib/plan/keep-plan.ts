import { addDays, daysBetween } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import {
  type Booking,
  type ClassWindow,
  type KeptBooking,
  type KeptPlan,
  type NotFitted,
  type Overload,
  planFormat,
  type RepairClass,
  type Work,
} from "../schema/kept-plan.ts";
import type { Workshop } from "../schema/workshop.ts";
import { canWait, type WaitWeek } from "./can-wait.ts";
import type { Plan } from "./make-plan.ts";
import { offBestOf } from "./off-best.ts";
import { overloadsOf } from "./overloads.ts";
import type { PlanSetUp, UnitOutlook } from "./problem-of.ts";
import type { PlanProblem } from "./types.ts";

/** A plan in the form in which it is kept and shown: with the depots' weeks, and for each booking how sure it is. */
export function keptPlan(
  plan: Plan,
  { problem, leftOut, outside }: PlanSetUp,
  {
    workshop,
    outlooks,
  }: { readonly workshop: Pick<Workshop, "currency" | "groups" | "spares">; readonly outlooks: readonly UnitOutlook[] },
): KeptPlan {
  const byUnit = new Map(outlooks.map((outlook) => [outlook.unit, outlook]));
  const { cost, bound, isCut, firstComeCost, nothingBookedCost, unchosenCost, notFitted, waiting } = plan;
  const { overloads, impossible } = plan;
  const offBest = offBestOf({ bookings: plan.bookings, plan: problem, workshop });
  return {
    format: planFormat,
    firstMonday: problem.firstMonday,
    weeks: problem.weeks,
    currency: workshop.currency,
    bookings: plan.bookings.map((booking): KeptBooking => {
      const { firstMonday, weeks } = problem;
      const about = aboutBooking(byUnit.get(booking.unit) as UnitOutlook, booking.work, { firstMonday, weeks });
      const waits = canWait(problem, booking.unit);
      const off = offBest(booking, waits);
      const told = { ...booking, ...about, ...insteadOf(booking, about, { problem, weeks: waits }) };
      return off === undefined ? told : { ...told, offBest: off };
    }),
    notFitted: notFitted.map((one) => ({ ...one, lacks: lacksOf(one, plan.bookings, problem, workshop) })),
    waiting,
    leftOut,
    cost,
    bound,
    isCut,
    firstComeCost,
    nothingBookedCost,
    unchosenCost,
    costByUnit: plan.costByUnit,
    overloads,
    impossible,
    outside,
    repairsKnown: {},
    depots: problem.depots.map(({ depot, weeks }) => ({ depot, weeks: weeks.slice(0, problem.weeks) })),
  };
}

/** What a repair without room would take above what there is in its best week, beside all that is booked. */
export function lacksOf(
  { unit, scope, bestWeek }: NotFitted,
  bookings: readonly Booking[],
  problem: PlanProblem,
  workshop: Pick<Workshop, "groups" | "spares">,
): readonly Overload[] {
  const at = canWait(problem, unit).find((one) => one.scope === scope && one.week === bestWeek);
  const depot = problem.units.find((one) => one.unit === unit)?.depot;
  if (at === undefined || depot === undefined) return [];
  const { week, start, work, cost, span } = at;
  const wished: Booking = { unit, depot, scope, week, start, work, cost, span, isPinned: false };
  const before = new Set(overloadsOf(bookings, problem, workshop).map(({ resource }) => JSON.stringify(resource)));
  const after = overloadsOf([...bookings, wished], problem, workshop);
  return after.filter(({ resource }) => !before.has(JSON.stringify(resource)));
}

/** What is told of a booking beside itself: how sure its class is, if a limit is met within the plan, and when its limits are met. */
export function aboutBooking(
  { model, pastLimit, disposalDate }: UnitOutlook,
  { cures }: Pick<Work, "cures">,
  plan: Pick<PlanProblem, "firstMonday" | "weeks">,
): Pick<KeptBooking, "engineModel" | "sure" | "windows"> {
  const end = addDays(plan.firstMonday, 7 * plan.weeks);
  const until = disposalDate !== null && disposalDate < end ? disposalDate : end;
  return {
    engineModel: model.id,
    sure: cures.length === 1 ? sureOf(pastLimit, cures[0] as RepairClass, until) : null,
    windows: cures.map((of) => windowOf(pastLimit, of)),
  };
}

/**
 * The same repair in the first open week from its likely date on, where the workshop is closed on that date: what the plan
 * was made to avoid.
 */
function insteadOf(
  { depot, scope, week }: Booking,
  { windows }: Pick<KeptBooking, "windows">,
  { problem, weeks: waits }: { readonly problem: PlanProblem; readonly weeks: readonly WaitWeek[] },
): Pick<KeptBooking, "instead"> {
  const likely = windows.flatMap(({ p50 }) => p50 ?? []).toSorted()[0];
  if (likely === undefined) return { instead: null };
  const at = Math.floor(daysBetween(problem.firstMonday, likely) / 7);
  const weeks = problem.depots.find((of) => of.depot === depot)?.weeks ?? [];
  if (at <= week || (weeks[at]?.openDays ?? 1) > 0) return { instead: null };
  const later = waits.find((one) => one.scope === scope && one.week >= at);
  return { instead: later === undefined ? null : { week: later.week, start: later.start, cost: later.cost } };
}

type Months = UnitOutlook["pastLimit"];

/** Probability that it is this class, if a limit is met by a date at all; null: none may be. */
function sureOf(months: Months, of: RepairClass, until: IsoDate): number | null {
  const at = months.findLast(({ date }) => date <= until) ?? months[0];
  if (at === undefined || at.topEnd + at.bottomEnd === 0) return null;
  return at[of] / (at.topEnd + at.bottomEnd);
}

/** The dates by which a limit of a class is met with the probabilities of a window, straight between the months. */
function windowOf(months: Months, of: RepairClass): ClassWindow {
  const dateAt = (probability: number): IsoDate | null => {
    const next = months.findIndex((month) => month[of] >= probability);
    if (next < 0) return null;
    const [a, b] = [months[next - 1], months[next] as Months[number]];
    if (a === undefined || b[of] === a[of]) return b.date;
    const share = (probability - a[of]) / (b[of] - a[of]);
    return addDays(a.date, Math.round(share * daysBetween(a.date, b.date)));
  };
  return { of, p10: dateAt(0.1), p50: dateAt(0.5), p90: dateAt(0.9) };
}
