import { addDays, isoWeek } from "../lib/calendar.ts";
import type { WaitWeek } from "../lib/plan/can-wait.ts";
import { loadOf } from "../lib/plan/load.ts";
import type { Plan } from "../lib/plan/make-plan.ts";
import { orderBy } from "../lib/plan/order-by.ts";
import type { PlanSetUp } from "../lib/plan/problem-of.ts";
import { totalOf } from "../lib/plan/types.ts";
import { likelyWaiting } from "../lib/plan/waiting.ts";
import { mondayOf } from "../lib/plan/week-costs.ts";
import type { IsoDate } from "../lib/schema/facts.ts";
import type { Booking, WeekCost } from "../lib/schema/kept-plan.ts";
import type { PlanDocument, WaitDocument } from "../lib/schema/plan-document.ts";
import type { Workshop } from "../lib/schema/workshop.ts";

export interface ToldPlan extends PlanSetUp {
  readonly plan: Plan;
  readonly workshop: Workshop;
  readonly asOf: IsoDate;
}

/** "2026-W41" (ISO 8601). */
export function weekName(date: IsoDate): string {
  const { year, week } = isoWeek(date);
  return `${year}-W${String(week).padStart(2, "0")}`;
}

/** Whole minor units whose parts add up to the whole. */
function costOf(cost: WeekCost): PlanDocument["bookings"][number]["cost"] {
  const [work, downtime, early] = [cost.work, cost.downtime, cost.early].map(Math.round) as [number, number, number];
  const total = Math.round(totalOf(cost));
  return { work, downtime, early, late: total - work - downtime - early, total };
}

function bookingOf(booking: Booking, { problem }: ToldPlan): PlanDocument["bookings"][number] {
  const { unit, depot, scope, start, work, span, isPinned } = booking;
  const lastInBay = span.findLast(({ bayDays }) => bayDays > 0)?.week ?? booking.week;
  const daysOff = span.reduce((sum, week) => sum + week.daysOff, 0);
  return {
    unit,
    depot,
    scope,
    start,
    week: weekName(start),
    bayFreeFrom: mondayOf(problem.firstMonday, lastInBay + 1),
    orderBy: orderBy(booking),
    labourHours: work.labourHours,
    bayDays: work.bayDays,
    daysOff,
    pinned: isPinned,
    cost: costOf(booking.cost),
  };
}

/** The plan as the document that `--json` prints. */
export function planDocument(told: ToldPlan): PlanDocument {
  const { plan, problem, leftOut, workshop, asOf } = told;
  const cost = Math.round(plan.cost);
  return {
    schemaVersion: 1,
    asOf,
    firstWeek: problem.firstMonday,
    weeks: problem.weeks,
    currency: workshop.currency,
    cost,
    bound: Math.min(cost, Math.round(plan.bound)),
    firstComeCost: Math.round(plan.firstComeCost),
    nothingBookedCost: Math.round(plan.nothingBookedCost),
    provenWithin: provenWithin(plan),
    bookings: plan.bookings.map((booking) => bookingOf(booking, told)),
    notFitted: plan.notFitted.map(({ unit, scope, bestWeek, extra }) => ({
      unit,
      scope,
      bestStart: mondayOf(problem.firstMonday, bestWeek),
      extraCost: Math.round(extra),
    })),
    waiting: likelyWaiting(plan.waiting, []).map(({ unit, of, chance }) => ({
      unit,
      class: classWords[of],
      chance: Number(chance.toFixed(4)),
    })),
    leftOut: [...leftOut],
    load: loadOf(plan, problem).map(({ depot, week, ...load }) => ({
      depot,
      start: addDays(problem.firstMonday, 7 * week),
      ...load,
    })),
  };
}

/** Share by which a plan that nobody found might be cheaper, at most. */
const provenWithin = ({ cost, bound }: Plan): number =>
  cost <= 0 ? 0 : Math.max(0, Number(((cost - bound) / cost).toFixed(6)));

/** Whether a unit can wait, as the document that `--wait` prints with `--json`. */
export const waitDocument = ({ workshop, asOf }: ToldPlan, unit: string, weeks: readonly WaitWeek[]): WaitDocument => ({
  schemaVersion: 1,
  asOf,
  unit,
  currency: workshop.currency,
  weeks: weeks.map(({ start, scope, cost, extra, pastLimit, failed, dearBy }) => ({
    start,
    week: weekName(start),
    scope,
    cost: costOf(cost),
    extra: Math.round(extra),
    pastLimit: Number(pastLimit.toFixed(4)),
    failed: Number(failed.toFixed(4)),
    dearBy: [...dearBy],
  })),
});

export const classWords = { topEnd: "top-end", bottomEnd: "bottom-end" } as const;
