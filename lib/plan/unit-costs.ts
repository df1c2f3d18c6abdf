import type { DepotWeek, RepairClass, WeekCost, WeekUse, Work } from "../schema/kept-plan.ts";
import { downtimeCost, jobSpan } from "./job-span.ts";
import type { Need, PlanProblem, PlanUnit } from "./types.ts";
import { type Timing, timingOf, workCost } from "./week-costs.ts";

/** What each repair of one unit costs in each week, and what leaving it costs. */
export interface UnitCosts {
  readonly unit: PlanUnit;
  /** By the places of `unit.needs`. */
  readonly timings: readonly Timing[];
  readonly weeks: readonly DepotWeek[];
}

/** The work that cures a class, alone where there is one that does. */
function workFor({ unit, works }: PlanUnit, of: RepairClass): Work {
  const curing = works.filter(({ cures }) => cures.includes(of));
  const work = curing.find(({ cures }) => cures.length === 1) ?? curing[0];
  if (work === undefined) throw new Error(`unit ${unit} has a need that no work cures: ${of}`);
  return work;
}

/**
 * A repair at the prices of the plan's first Monday, whenever it is made: weighed at prices that grow, the plan would hurry what
 * can wait, for nothing else of it grows with them. What a repair will be paid with, the budget tells.
 */
const priceOf = (work: Work, { firstMonday, prices }: Pick<PlanProblem, "firstMonday" | "prices">): number =>
  workCost(work, prices, firstMonday);

/** The costs of a unit. Each of its needs has a work that cures it. */
export function unitCosts(unit: PlanUnit, problem: PlanProblem): UnitCosts {
  const weeks = problem.depots.find(({ depot }) => depot === unit.depot)?.weeks ?? [];
  const timings = unit.needs.map((need) => {
    const work = workFor(unit, need.of);
    const money = priceOf(work, problem);
    return timingOf(need, unit, { repair: money + unit.dayCost * work.daysOff, work: money }, problem);
  });
  return { unit, timings, weeks };
}

/** A repair of a unit that begins in a week: its cost and what it takes. null: not possible in that week. */
export interface Placed {
  readonly cost: WeekCost;
  readonly span: readonly WeekUse[];
}

export function placed(
  { unit, timings, weeks }: UnitCosts,
  work: Work,
  week: number,
  problem: Pick<PlanProblem, "firstMonday" | "prices">,
): Placed | null {
  const span = jobSpan(work, weeks, week);
  if (span === null) return null;
  const cured = timings.filter((_, i) => work.cures.includes((unit.needs[i] as Need).of));
  return {
    span,
    cost: {
      work: priceOf(work, problem),
      downtime: downtimeCost(unit, weeks, span),
      early: cured.reduce((sum, { early }) => sum + (early[week] as number), 0),
      late: cured.reduce((sum, { late }) => sum + (late[week] as number), 0),
    },
  };
}

/** What a need costs that is not booked: its repair when it falls due after the plan, and the running on until then. */
export function leavingOf({ unit, timings }: UnitCosts, place: number, problem: PlanProblem): WeekCost {
  const { leaving, repairedBy } = timings[place] as Timing;
  if (repairedBy !== null) return { work: 0, downtime: 0, early: 0, late: leaving };
  const work = workFor(unit, (unit.needs[place] as Need).of);
  return { work: priceOf(work, problem), downtime: unit.dayCost * work.daysOff, early: 0, late: leaving };
}

/**
 * The same of two needs that one work cures: as likely as they fall due near each other after the plan, they are then put right
 * together. Their crossings are taken as independent.
 */
export function leavingBothOf(of: UnitCosts, work: Work, problem: PlanProblem): WeekCost {
  const { unit, timings } = of;
  const [a, b] = [leavingOf(of, 0, problem), leavingOf(of, 1, problem)];
  const [first, second] = unit.needs as readonly [Need, Need];
  const [repairedA, repairedB] = timings.map(({ repairedBy }) => repairedBy);
  if (repairedA != null && repairedB != null) {
    // Of a unit that is sold only what is repaired before the sale can be repaired together; it stands in what is late.
    const near = nearEachOther(repairedA, repairedB, problem.togetherWeeks);
    const priced = (one: Work) => priceOf(one, problem) + unit.dayCost * one.daysOff;
    const apart = priced(workFor(unit, first.of)) + priced(workFor(unit, second.of));
    return { ...a, late: a.late + b.late - near * Math.max(0, apart - priced(work)) };
  }
  const isSold = repairedA != null || repairedB != null;
  const near = isSold ? 0 : nearEachOther(first.crossed, second.crossed, problem.togetherWeeks);
  const together = (apart: number, whole: number) => apart - near * Math.max(0, apart - whole);
  return {
    work: together(a.work + b.work, priceOf(work, problem)),
    downtime: together(a.downtime + b.downtime, unit.dayCost * work.daysOff),
    early: 0,
    late: a.late + b.late,
  };
}

/** Probability that both are met within the forecast, at most so many weeks apart. */
function nearEachOther(a: Float64Array, b: Float64Array, weeks: number): number {
  const last = b.length - 1;
  const bBy = (week: number) => (week < 0 ? 0 : (b[Math.min(last, week)] as number));
  let near = (a[0] as number) * bBy(weeks);
  for (let w = 1; w < a.length; w++) {
    near += ((a[w] as number) - (a[w - 1] as number)) * (bBy(w + weeks) - bBy(w - weeks - 1));
  }
  return near;
}
