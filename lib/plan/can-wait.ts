import type { IsoDate } from "../schema/facts.ts";
import type { PlanScope, RepairClass, WeekCost, WeekUse, Work } from "../schema/kept-plan.ts";
import { earliestWeek } from "./order-by.ts";
import { type Need, type PlanProblem, totalOf } from "./types.ts";
import { leavingOf, placed, type UnitCosts, unitCosts } from "./unit-costs.ts";
import { mondayOf } from "./week-costs.ts";

/** What a repair of one unit costs and risks if it begins in a week. */
export interface WaitWeek {
  readonly week: number;
  readonly start: IsoDate;
  readonly scope: PlanScope;
  readonly cost: WeekCost;
  /** More than in the cheapest week of this repair. */
  readonly extra: number;
  /** Probability that a limit of what it cures is met by then, and that it has failed by then. */
  readonly pastLimit: number;
  readonly failed: number;
  /** Why its days off the road cost more than elsewhere: it is off the road while its workshop is closed, or in a peak. */
  readonly dearBy: readonly ("closed" | "peak")[];
  /** The work, and what it takes of each week. */
  readonly work: Work;
  readonly span: readonly WeekUse[];
}

/**
 * Whether a unit can wait: every repair of it in every week of the plan in which its parts can be there and the
 * workshop is open, room or no room. Empty: the plan has
 * no such unit.
 */
export function canWait(problem: PlanProblem, name: string): readonly WaitWeek[] {
  const unit = problem.units.find((one) => one.unit === name);
  if (unit === undefined) return [];
  const of = unitCosts(unit, problem);
  return unit.works.flatMap((work) => {
    const cured = unit.needs.filter((need) => work.cures.includes(need.of));
    const weeks = Array.from({ length: problem.weeks }, (_, week) => ({ week, at: placed(of, work, week, problem) }))
      .filter(({ week }) => week >= earliestWeek(work) && week < (unit.disposalWeek ?? problem.weeks))
      .flatMap(({ week, at }) => (at === null ? [] : [{ week, ...at }]));
    const least = Math.min(...weeks.map(({ cost }) => totalOf(cost)));
    const failed = cured.map((need) => failedBy(need, unit.runningOn.failurePerWeek));
    return weeks.map(({ week, cost, span }) => ({
      week,
      start: mondayOf(problem.firstMonday, week),
      scope: work.scope,
      cost,
      extra: totalOf(cost) - least,
      pastLimit: either(cured.map(({ crossed }) => crossed[week] as number)),
      failed: either(failed.map((by) => by[week] as number)),
      dearBy: dearBy(of, span),
      work,
      span,
    }));
  });
}

/** What it costs to leave what a unit may need until after the plan, for each class of repair; null: it has no such need. */
export function costOfLeaving(problem: PlanProblem, name: string): Readonly<Record<RepairClass, WeekCost | null>> {
  const unit = problem.units.find((one) => one.unit === name);
  if (unit === undefined) return { topEnd: null, bottomEnd: null };
  const of = unitCosts(unit, problem);
  const leaving = (wanted: RepairClass) => {
    const place = unit.needs.findIndex((need) => need.of === wanted);
    return place < 0 ? null : leavingOf(of, place, problem);
  };
  return { topEnd: leaving("topEnd"), bottomEnd: leaving("bottomEnd") };
}

function dearBy({ unit, weeks }: UnitCosts, span: readonly WeekUse[]): WaitWeek["dearBy"] {
  const off = span.filter(({ daysOff }) => daysOff > 0);
  const isClosed = off.some(({ week }) => weeks[week]?.openDays === 0);
  const isPeak = off.some(({ week }) => unit.peakWeeks.has(week) || (weeks[week]?.peakShare ?? 0) > 0);
  return [...(isClosed ? ["closed" as const] : []), ...(isPeak && unit.peakFactor > 1 ? ["peak" as const] : [])];
}

/** Probability of one or the other: at most their sum, as two that shut each other out have it. */
const either = (probabilities: readonly number[]): number =>
  Math.min(
    1,
    probabilities.reduce((a, b) => a + b, 0),
  );

/** Probability that a unit has failed of a need by the beginning of each week: of those past the limit some fail in each. */
function failedBy({ crossed }: Need, failurePerWeek: number): Float64Array {
  const failed = new Float64Array(crossed.length);
  for (let w = 1; w < crossed.length; w++) {
    const newly = (crossed[w] as number) - (crossed[w - 1] as number);
    const running = (crossed[w - 1] as number) - (failed[w - 1] as number) + newly / 2;
    failed[w] = (failed[w - 1] as number) + running * failurePerWeek;
  }
  return failed;
}
