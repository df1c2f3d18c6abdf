import { downtimeCost, jobSpan, type WeekUse } from "./job-span.ts";
import {
  type DepotWeek,
  type Need,
  type PlanProblem,
  type PlanUnit,
  type RepairClass,
  totalOf,
  type WeekCost,
  type Work,
} from "./types.ts";
import { mondayOf, type Timing, timingOf, workCost } from "./week-costs.ts";

/** What each repair of one unit costs in each week, and what leaving it costs. */
export interface UnitCosts {
  readonly unit: PlanUnit;
  /** By the places of `unit.needs`. */
  readonly timings: readonly Timing[];
  readonly weeks: readonly DepotWeek[];
}

/** The cheapest work that cures a class alone; undefined: none on file. */
export const workFor = ({ works }: PlanUnit, of: RepairClass): Work | undefined =>
  works.find(({ cures }) => cures.length === 1 && cures[0] === of) ?? works.find(({ cures }) => cures.includes(of));

/**
 * The costs of a unit. A need that no work on file cures has no price: its timing counts the running on alone.
 */
export function unitCosts(unit: PlanUnit, { firstMonday, prices, depots }: PlanProblem): UnitCosts {
  const weeks = depots.find(({ depot }) => depot === unit.depot)?.weeks ?? [];
  const timings = unit.needs.map((need) => {
    const work = workFor(unit, need.of);
    const money = work === undefined ? 0 : workCost(work, prices, firstMonday);
    const repair = money + (work === undefined ? 0 : unit.dayCost * work.daysOff);
    return timingOf(need, unit.runningOn, { repair, work: money, disposalWeek: unit.disposalWeek });
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
  { firstMonday, prices }: Pick<PlanProblem, "firstMonday" | "prices">,
): Placed | null {
  const span = jobSpan(work, weeks, week);
  if (span === null) return null;
  const cured = timings.filter((_, i) => work.cures.includes((unit.needs[i] as Need).of));
  return {
    span,
    cost: {
      work: workCost(work, prices, mondayOf(firstMonday, week)),
      downtime: downtimeCost(unit, weeks, span),
      early: cured.reduce((sum, { early }) => sum + (early[week] as number), 0),
      late: cured.reduce((sum, { late }) => sum + (late[week] as number), 0),
    },
  };
}

/**
 * The least that some needs cost after the plan's last week, each or all by one work: at the best week until the end of the
 * forecast or beyond it, without regard to room. What lasts beyond the forecast gives no life away by being repaired when it
 * is worn. Of a unit that is sold before that, what waiting for the sale costs, where that is less.
 * @param needs places in `unit.needs`
 */
export function laterCost(
  { unit, timings }: UnitCosts,
  work: Work | null,
  needs: readonly number[],
  { weeks, firstMonday, prices }: Pick<PlanProblem, "weeks" | "firstMonday" | "prices">,
): WeekCost {
  const some = needs.map((i) => timings[i] as Timing);
  const sumOf = (amount: (timing: Timing) => number) => some.reduce((sum, timing) => sum + amount(timing), 0);
  const end = (some[0] as Timing).late.length - 1;
  const isSold = unit.disposalWeek !== null && unit.disposalWeek <= end;
  const at = (week: number, early: number): WeekCost => ({
    work: work === null ? 0 : workCost(work, prices, mondayOf(firstMonday, week)),
    downtime: work === null ? 0 : unit.dayCost * work.daysOff,
    early,
    late: sumOf(({ late }) => late[week] as number),
  });
  let best = isSold
    ? { work: 0, downtime: 0, early: 0, late: sumOf(({ untilSold }) => untilSold as number) }
    : at(end, 0);
  const last = isSold ? (unit.disposalWeek as number) - 1 : end;
  for (let week = weeks; week <= last; week++) {
    const cost = at(
      week,
      sumOf(({ early }) => early[week] as number),
    );
    if (totalOf(cost) < totalOf(best)) best = cost;
  }
  return best;
}
