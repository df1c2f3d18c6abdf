import { lacksOf } from "../plan/keep-plan.ts";
import type { Plan } from "../plan/make-plan.ts";
import type { PlanProblem } from "../plan/types.ts";
import type { DepotWeek } from "../schema/kept-plan.ts";
import type { ScenarioLoss } from "../schema/scenario.ts";
import { type DepotWorkshop, depotWorkshopOf, type Workshop } from "../schema/workshop.ts";
import { never } from "./fates.ts";

/** What a depot's workshop has left, as a share of its open days in the base: 1 where nothing is cut, 0 where it is shut. */
export type ShareLeft = (depot: string) => number;

/**
 * The problem with workshops that are closed on more days: whole working days, spread evenly over the weeks from the first on. A job
 * then runs on into the next open days and lasts longer; cutting each week's bay days instead would leave a job that fills a bay for a
 * week without any week to be done in, however little is cut. The same cut closes the same days.
 */
export const withClosedDays = (problem: PlanProblem, workshop: Workshop, left: ShareLeft): PlanProblem => ({
  ...problem,
  depots: problem.depots.map(({ depot, weeks }) => ({
    depot,
    weeks: left(depot) >= 1 ? weeks : closedOn(weeks, depotWorkshopOf(workshop, depot), 1 - left(depot)),
  })),
});

function closedOn(weeks: readonly DepotWeek[], of: DepotWorkshop, share: number): readonly DepotWeek[] {
  let due = 0;
  let closed = 0;
  return weeks.map((week) => {
    due += share * week.openDays;
    // A hair more: a half that is reached by adding up tenths must not hang on how they round.
    const days = Math.min(week.openDays, Math.floor(due + 0.5 + 1e-9) - closed);
    closed += days;
    return without(week, days, of);
  });
}

/** What other jobs take stays theirs. */
function without(week: DepotWeek, days: number, of: DepotWorkshop): DepotWeek {
  const aDay = of.productiveHoursPerDay;
  return {
    ...week,
    openDays: week.openDays - days,
    bayDays: Math.max(0, week.bayDays - of.bays * days),
    hours: Math.max(0, week.hours - of.technicians * aDay * days),
    builderHours: Math.max(0, week.builderHours - of.builders * aDay * days),
  };
}

/**
 * Weeks by which a repair that is not booked follows its limit where a workshop has less: it waits for a bay so many times as long,
 * and where there is none for ever, until the unit fails. In whole weeks, as the setting is.
 */
export const missWeeksLeft = (missWeeks: number, left: number): number =>
  left <= 0 ? never : Math.round(missWeeks / left);

/** Why a repair of the base is not booked in a plan. `problem`: what that plan was made for. */
export function lossOf(
  { unit, scope }: { readonly unit: string; readonly scope: string },
  { bookings, notFitted = [] }: Pick<Plan, "bookings"> & Partial<Pick<Plan, "notFitted">>,
  { problem, workshop }: { readonly problem: PlanProblem; readonly workshop: Workshop },
): ScenarioLoss {
  const of = problem.units.find((one) => one.unit === unit);
  const depot = of?.depot ?? "";
  const weeks = problem.depots.find((one) => one.depot === depot)?.weeks ?? [];
  if (of !== undefined && weeks.every(({ openDays }) => openDays === 0)) return { why: "shut", depot };
  const left =
    notFitted.find((one) => one.unit === unit && one.scope === scope) ?? notFitted.find((one) => one.unit === unit);
  if (left === undefined) return { why: "waits" };
  const lacks = [...new Set(lacksOf(left, bookings, problem, workshop).map(({ resource }) => resource.kind))];
  return { why: "no-room", depot, lacks, extra: Math.round(left.extra) };
}
