import { addDays, isoWeek } from "../../../lib/calendar.ts";
import { type CsvTable, csvTable, yesNo } from "../../../lib/outtake/csv-table.ts";
import { tookFields } from "../../../lib/plan/closed-bookings.ts";
import type { WeekLoad } from "../../../lib/plan/load.ts";
import { orderBy } from "../../../lib/plan/order-by.ts";
import type { PartsDemand } from "../../../lib/plan/parts-demand.ts";
import { lastBayDay } from "../../../lib/plan/plan-calendar.ts";
import { shownCost } from "../../../lib/plan/shown-cost.ts";
import { totalOf } from "../../../lib/plan/types.ts";
import { minorUnits } from "../../../lib/plan/works-of.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { ClassWindow, KeptBooking, KeptPlan, RepairClass } from "../../../lib/schema/kept-plan.ts";
import type { DroppedRepair } from "../../_jobs/plan-dropped.ts";
import type { PlanOutcome } from "../../_jobs/plan-papers.ts";

/** The tables of a plan as files: ISO dates and weeks, amounts in the currency, hours and days as figures. */

/** "2026-W45" */
function weekCode(date: IsoDate): string {
  const { year, week } = isoWeek(date);
  return `${year}-W${String(week).padStart(2, "0")}`;
}

const amountIn = (currency: string) => {
  const minor = minorUnits(currency);
  return (amount: number): number => Math.round(amount) / minor;
};

const rounded = (value: number, digits = 4): number => Number(value.toFixed(digits));

const className = { topEnd: "top-end", bottomEnd: "bottom-end" } as const satisfies Record<RepairClass, string>;

export function bookingsTable(bookings: readonly KeptBooking[], currency: string): CsvTable {
  const amount = amountIn(currency);
  const edge = (of: RepairClass, which: "p10" | "p50" | "p90") => (booking: KeptBooking) =>
    booking.windows.find((window: ClassWindow) => window.of === of)?.[which] ?? null;
  return csvTable<KeptBooking>(bookings, {
    unit: ({ unit }) => unit,
    depot: ({ depot }) => depot,
    engine_model: ({ engineModel }) => engineModel,
    repair: ({ scope }) => scope,
    week: ({ start }) => weekCode(start),
    start: ({ start }) => start,
    last_bay_day: lastBayDay,
    order_by: orderBy,
    labour_hours: ({ work }) => work.labourHours,
    bay_days: ({ work }) => work.bayDays,
    days_off: ({ work }) => work.daysOff,
    lead_days: ({ work }) => work.leadDays,
    class_probability: ({ sure }) => (sure === null ? null : rounded(sure)),
    top_end_early: edge("topEnd", "p10"),
    top_end_likely: edge("topEnd", "p50"),
    top_end_late: edge("topEnd", "p90"),
    bottom_end_early: edge("bottomEnd", "p10"),
    bottom_end_likely: edge("bottomEnd", "p50"),
    bottom_end_late: edge("bottomEnd", "p90"),
    // In whole minor units that add up to the total.
    work_cost: ({ cost }) => amount(shownCost(cost, 1).work),
    downtime_cost: ({ cost }) => amount(shownCost(cost, 1).downtime),
    early_cost: ({ cost }) => amount(shownCost(cost, 1).early),
    late_cost: ({ cost }) => amount(shownCost(cost, 1).late),
    total_cost: ({ cost }) => amount(totalOf(cost)),
    currency: () => currency,
    pinned: ({ isPinned }) => yesNo(isPinned),
  });
}

/** Every week of the plan, those without a booking too. */
export const loadTable = (load: readonly WeekLoad[], { firstMonday, depots }: KeptPlan): CsvTable => {
  const weekOf = ({ depot, week }: WeekLoad) => depots.find((of) => of.depot === depot)?.weeks[week];
  const monday = ({ week }: WeekLoad) => addDays(firstMonday, 7 * week);
  return csvTable<WeekLoad>(load, {
    depot: ({ depot }) => depot,
    week: (of) => weekCode(monday(of)),
    start: monday,
    bay_days_used: ({ bayDays }) => rounded(bayDays.used),
    bay_days: ({ bayDays }) => rounded(bayDays.has),
    hours_used: ({ hours }) => rounded(hours.used),
    hours: ({ hours }) => rounded(hours.has),
    open_days: (of) => weekOf(of)?.openDays ?? null,
    peak_share: (of) => rounded(weekOf(of)?.peakShare ?? 0),
  });
};

export function notFittedTable(
  { notFitted, firstMonday, currency }: KeptPlan,
  depotOf: (unit: string) => string | null,
): CsvTable {
  const amount = amountIn(currency);
  const best = ({ bestWeek }: KeptPlan["notFitted"][number]) => addDays(firstMonday, 7 * bestWeek);
  return csvTable(notFitted, {
    unit: ({ unit }) => unit,
    depot: ({ unit }) => depotOf(unit),
    repair: ({ scope }) => scope,
    best_week: (of) => weekCode(best(of)),
    best_start: best,
    extra_cost: ({ extra }) => amount(extra),
    currency: () => currency,
  });
}

/** What people dropped; what leaving it costs more is told against the week named. */
export function droppedTable(dropped: readonly DroppedRepair[], currency: string): CsvTable {
  const amount = amountIn(currency);
  return csvTable<DroppedRepair>(dropped, {
    unit: ({ unit }) => unit,
    depot: ({ depot }) => depot,
    repair: ({ scope }) => scope,
    dropped_by: ({ by }) => by,
    dropped_at: ({ at }) => at,
    against_week: ({ cost }) => (cost === null ? null : weekCode(cost.week)),
    extra_cost: ({ cost }) => (cost === null ? null : amount(cost.extra)),
    currency: () => currency,
  });
}

/** What waits for its next test, as likely as the pages tell it. */
export const waitingTable = ({ waiting }: KeptPlan, depotOf: (unit: string) => string | null): CsvTable =>
  csvTable(waiting, {
    unit: ({ unit }) => unit,
    depot: ({ unit }) => depotOf(unit),
    class: ({ of }) => className[of],
    probability_within_plan: ({ chance }) => rounded(chance),
  });

export function partsTable(demand: readonly PartsDemand[], currency: string): CsvTable {
  const amount = amountIn(currency);
  return csvTable(demand, {
    order_by: ({ orderBy: by }) => by,
    because: ({ because }) => because,
    needed_week: ({ start }) => weekCode(start),
    needed: ({ start }) => start,
    unit: ({ unit }) => unit,
    depot: ({ depot }) => depot,
    engine_model: ({ engineModel }) => engineModel,
    repair: ({ scope }) => scope,
    groups: ({ groups }) => groups.join(" "),
    parts: ({ parts }) => amount(parts),
    machining: ({ machining }) => amount(machining),
    currency: () => currency,
    lead_days: ({ leadDays }) => leadDays,
    order_by_for_week: ({ forWeek }) => forWeek,
  });
}

const columnOf = { hours: "hours", cost: "cost", daysOff: "days_off" } as const;

export function doneTable(outcomes: readonly PlanOutcome[]): CsvTable {
  const told = (outcome: PlanOutcome, value: number | null, field: (typeof tookFields)[number]) => {
    if (value === null || field !== "cost") return value;
    return outcome.currency === null ? null : amountIn(outcome.currency)(value);
  };
  const columns = tookFields.flatMap((field) => {
    const name = columnOf[field];
    return [
      [`forecast_${name}`, (of: PlanOutcome) => told(of, of.forecast[field], field)] as const,
      [`made_${name}`, (of: PlanOutcome) => told(of, of.made[field], field)] as const,
    ];
  });
  return csvTable<PlanOutcome>(outcomes, {
    unit: ({ unit }) => unit,
    depot: ({ depot }) => depot,
    repaired: ({ repair }) => repair.date,
    repair: ({ repair }) => repair.scope,
    plan_of: ({ planAsOf }) => planAsOf,
    booked_for: ({ start }) => start,
    booked: ({ scopes }) => scopes.join(" "),
    ...Object.fromEntries(columns),
    currency: ({ currency }) => currency,
  });
}
