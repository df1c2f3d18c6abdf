import type { Highs } from "highs";
import type { IsoDate } from "../schema/facts.ts";
import { cheapestFirstPlan, firstComePlan } from "./first-come.ts";
import { type FleetProgramme, fleetProgramme, type Overload, type PlanOption } from "./fleet-programme.ts";
import { costOf } from "./programme.ts";
import { type SolveProgress, solveProgramme } from "./solve.ts";
import {
  type Pin,
  type PlanProblem,
  type PlanScope,
  type RepairClass,
  totalOf,
  type WeekCost,
  type Work,
} from "./types.ts";
import { mondayOf } from "./week-costs.ts";

export interface Booking {
  readonly unit: string;
  readonly depot: string;
  readonly scope: PlanScope;
  readonly week: number;
  /** Monday of the week. */
  readonly start: IsoDate;
  readonly work: Work;
  /** Expected, in minor units. */
  readonly cost: WeekCost;
  /** What it takes of each week. */
  readonly span: PlanOption["span"];
  readonly isPinned: boolean;
}

/** A repair that pays within the plan but found no room. */
export interface NotFitted {
  readonly unit: string;
  readonly of: readonly RepairClass[];
  /** Its best week if there were room, and what not having it costs. */
  readonly bestWeek: number;
  readonly scope: PlanScope;
  readonly extra: number;
}

export interface Plan {
  /** By week, then unit. */
  readonly bookings: readonly Booking[];
  readonly notFitted: readonly NotFitted[];
  /** Expected cost of all units, those left until after the plan too; minor units. */
  readonly cost: number;
  /** No plan costs less. */
  readonly bound: number;
  readonly isCut: boolean;
  /** What the same costs first come, first served. */
  readonly firstComeCost: number;
  readonly overloads: readonly Overload[];
  readonly impossible: readonly { readonly pin: Pin; readonly why: "unit" | "work" | "closed" }[];
}

export interface PlanEffort {
  readonly gap: number;
  readonly seconds: number;
  readonly onProgress: (progress: SolveProgress) => boolean;
}

/** The cheapest plan that keeps to what there is, as near as the effort allows. Blocks its thread. */
export function makePlan(highs: Highs, problem: PlanProblem, effort: PlanEffort): Plan {
  const fleet = fleetProgramme(problem);
  const starts = [firstComePlan(fleet), cheapestFirstPlan(fleet)];
  const [firstCome] = starts as [ReadonlySet<number>, ReadonlySet<number>];
  const start = starts.reduce((a, b) => (costOf(fleet.programme, b) < costOf(fleet.programme, a) ? b : a));
  const solved = solveProgramme(highs, fleet.programme, { ...effort, start });
  const pinnedCost = fleet.pinned.reduce((sum, { cost }) => sum + totalOf(cost), 0);
  return {
    bookings: bookingsOf(fleet, solved.taken, problem),
    notFitted: notFitted(fleet, solved.taken),
    cost: solved.cost + pinnedCost,
    bound: solved.bound + pinnedCost,
    isCut: solved.isCut,
    firstComeCost: costOf(fleet.programme, firstCome) + pinnedCost,
    overloads: fleet.overloads,
    impossible: fleet.impossible,
  };
}

function bookingsOf(fleet: FleetProgramme, taken: ReadonlySet<number>, { firstMonday }: PlanProblem): Booking[] {
  const bookingOf = ({ unit, work, week, cost, span }: PlanOption, isPinned: boolean): Booking[] => {
    const of = fleet.costs[unit]?.unit;
    if (work === null || week === null || of === undefined) return [];
    const start = mondayOf(firstMonday, week);
    return [{ unit: of.unit, depot: of.depot, scope: work.scope, week, start, work, cost, span, isPinned }];
  };
  return [
    ...fleet.pinned.flatMap((pin) => bookingOf(pin, true)),
    ...[...taken].flatMap((option) => bookingOf(fleet.options[option] as PlanOption, false)),
  ].toSorted((a, b) => a.week - b.week || (a.unit < b.unit ? -1 : 1));
}

/** What was left until after the plan although some week within it costs less. */
function notFitted(fleet: FleetProgramme, taken: ReadonlySet<number>): NotFitted[] {
  const left = [...taken].filter((option) => fleet.options[option]?.work === null);
  return left.flatMap((option): NotFitted[] => {
    const { unit, cost } = fleet.options[option] as PlanOption;
    const covers = fleet.programme.options[option]?.covers ?? [];
    const best = (fleet.byUnit[unit] ?? [])
      .filter((i) => {
        const covered = fleet.programme.options[i]?.covers ?? [];
        return (
          fleet.options[i]?.work !== null &&
          covered.length === covers.length &&
          covered.every((need) => covers.includes(need))
        );
      })
      .map((i) => fleet.options[i] as PlanOption)
      .reduce<PlanOption | null>((a, b) => (a === null || totalOf(b.cost) < totalOf(a.cost) ? b : a), null);
    const extra = best === null ? 0 : totalOf(cost) - totalOf(best.cost);
    if (best === null || best.work === null || best.week === null || extra <= 0) return [];
    const { unit: name, needs } = (fleet.costs[unit] as FleetProgramme["costs"][number]).unit;
    const of = needs.map((need) => need.of).filter((one) => best.work?.cures.includes(one));
    return [{ unit: name, of, bestWeek: best.week, scope: best.work.scope, extra }];
  });
}
