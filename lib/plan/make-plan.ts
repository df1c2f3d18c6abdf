import type { Highs } from "highs";
import type { Booking, NotFitted, Overload, Waiting } from "../schema/kept-plan.ts";
import { cheapestFirstPlan, firstComePlan, leavingCost } from "./first-come.ts";
import { costOfNothing, type FleetProgramme, fleetProgramme, type PlanOption } from "./fleet-programme.ts";
import { costOf } from "./programme.ts";
import { type SolveProgress, solveProgramme } from "./solve.ts";
import { type PlanProblem, totalOf } from "./types.ts";
import { mondayOf } from "./week-costs.ts";

export interface Plan {
  /** By week, then unit. */
  readonly bookings: readonly Booking[];
  readonly notFitted: readonly NotFitted[];
  /** Whatever the chance, the likeliest first. */
  readonly waiting: readonly Waiting[];
  /** Expected cost of all units, those left until after the plan too; minor units. */
  readonly cost: number;
  /** No plan costs less. */
  readonly bound: number;
  readonly isCut: boolean;
  /** How many ways there were to choose from. */
  readonly options: number;
  /** What the same costs first come, first served round the same pins, and with nothing booked at all, pins neither. */
  readonly firstComeCost: number;
  readonly nothingBookedCost: number;
  /** What the cheapest plan costs that keeps to no pin and no drop; null: there was none to keep to, or nobody asked. */
  readonly unchosenCost: number | null;
  /** Expected cost of each unit, in whole minor units. */
  readonly costByUnit: Readonly<Record<string, number>>;
  readonly overloads: readonly Overload[];
  readonly impossible: FleetProgramme["impossible"];
}

export interface PlanEffort {
  /** Now in seconds, by any clock that does not go back. */
  readonly clock: () => number;
  readonly gap: number;
  /** All that is looked for together takes at most so long. */
  readonly seconds: number;
  /** Whether to look as well for what the plan would cost without pins and drops. Left out: no. */
  readonly tellsChoices?: boolean;
  /** Seconds are those since the first was looked for; cost and bound are always those of the plan itself. */
  readonly onProgress: (progress: SolveProgress) => boolean;
}

/** At most this share of the seconds goes into what the plan would cost without pins and drops. */
const unchosenShare = 0.25;

/** The cheapest plan that keeps to what there is, as near as the effort allows. Blocks its thread. */
export function makePlan(highs: Highs, problem: PlanProblem, effort: PlanEffort): Plan {
  const fleet = fleetProgramme(problem);
  const begun = effort.clock();
  const isAsked = effort.tellsChoices === true && problem.pins.length + problem.dropped.length > 0;
  const seconds = isAsked ? (1 - unchosenShare) * effort.seconds : effort.seconds;
  const pinnedCost = fleet.pinned.reduce((sum, { cost }) => sum + totalOf(cost), 0);
  const withPinned = (amount: number | null) => (amount === null ? null : amount + pinnedCost);
  const { solved, firstCome } = solvedFrom(highs, fleet, {
    ...effort,
    seconds,
    onProgress: (so) => effort.onProgress({ ...so, cost: withPinned(so.cost), bound: withPinned(so.bound) }),
  });
  const unfitted = notFitted(fleet, solved.taken);
  const [cost, bound] = [solved.cost + pinnedCost, solved.bound + pinnedCost];
  return {
    bookings: bookingsOf(fleet, solved.taken, problem),
    notFitted: unfitted,
    waiting: waitingOf(fleet, solved.taken, { unfitted, problem }),
    cost,
    bound,
    isCut: solved.isCut,
    options: fleet.options.length,
    firstComeCost: costOf(fleet.programme, firstCome) + pinnedCost,
    nothingBookedCost: costOfNothing(fleet, problem),
    costByUnit: costByUnit(fleet, solved.taken),
    unchosenCost: isAsked ? unchosenCost(highs, problem, { effort, begun, found: { cost, bound }, fleet }) : null,
    overloads: fleet.overloads,
    impossible: fleet.impossible,
  };
}

/** The best that is found, from the better of two plans made by rule on. */
function solvedFrom(highs: Highs, fleet: FleetProgramme, effort: PlanEffort) {
  const firstCome = firstComePlan(fleet);
  const cheapest = cheapestFirstPlan(fleet);
  const start = costOf(fleet.programme, cheapest) < costOf(fleet.programme, firstCome) ? cheapest : firstCome;
  return { firstCome, solved: solveProgramme(highs, fleet.programme, { ...effort, start }, effort.clock) };
}

/** What each unit costs, by what was taken of its options and what is pinned of it. */
function costByUnit(fleet: FleetProgramme, taken: ReadonlySet<number>): Readonly<Record<string, number>> {
  const costs = fleet.costs.map(() => 0);
  const options = [...fleet.pinned, ...[...taken].map((option) => fleet.options[option] as PlanOption)];
  for (const { unit, cost } of options) costs[unit] = (costs[unit] as number) + totalOf(cost);
  return Object.fromEntries(fleet.costs.map(({ unit: { unit } }, u) => [unit, Math.round(costs[u] as number)]));
}

/**
 * What the same fleet costs at its cheapest without anything that people chose, looked for in what is left of the seconds. What is found
 * for each of the two lies within the solver's slack of the least, so the one without choices may come out dearer; as long as pins take
 * no more than there is, the plan round them could be made without them too, and then stands for it.
 */
function unchosenCost(
  highs: Highs,
  problem: PlanProblem,
  {
    effort,
    begun,
    found,
    fleet: { overloads },
  }: {
    readonly effort: PlanEffort;
    readonly begun: number;
    readonly found: Pick<Plan, "cost" | "bound">;
    readonly fleet: Pick<FleetProgramme, "overloads">;
  },
): number {
  const fleet = fleetProgramme({ ...problem, pins: [], dropped: [] });
  const since = () => effort.clock() - begun;
  const { solved } = solvedFrom(highs, fleet, {
    ...effort,
    seconds: Math.min(unchosenShare * effort.seconds, effort.seconds - since()),
    onProgress: () => effort.onProgress({ ...found, seconds: since() }),
  });
  return overloads.length === 0 ? Math.min(solved.cost, found.cost) : solved.cost;
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
  return left.flatMap((option) => {
    const { unit } = fleet.options[option] as PlanOption;
    const ways = (fleet.byUnit[unit] ?? []).map((i) => wayOf(fleet, i));
    // Weeks that have room for it at all come first.
    const never = fleet.tooLarge.filter((way) => way.option.unit === unit);
    return bestInstead(fleet, wayOf(fleet, option), ways) ?? bestInstead(fleet, wayOf(fleet, option), never) ?? [];
  });
}

type Way = FleetProgramme["tooLarge"][number];

const wayOf = ({ options, programme }: FleetProgramme, option: number): Way => ({
  option: options[option] as PlanOption,
  covers: programme.options[option]?.covers ?? [],
});

/** The way that saves the most against leaving; where it cures one need of two, the other is left by itself. */
function bestInstead(fleet: FleetProgramme, left: Way, ways: readonly Way[]): NotFitted | null {
  const { unit, needs } = (fleet.costs[left.option.unit] as FleetProgramme["costs"][number]).unit;
  let best: NotFitted | null = null;
  for (const { option, covers } of ways) {
    if (option.work === null || option.week === null || !covers.every((need) => left.covers.includes(need))) continue;
    const others = left.covers.filter((need) => !covers.includes(need));
    const instead = others.reduce((sum, need) => sum + leavingCost(fleet, need), 0);
    const extra = totalOf(left.option.cost) - totalOf(option.cost) - instead;
    if (extra <= (best?.extra ?? 0)) continue;
    const of = covers.flatMap((need) => needs[fleet.placeOfNeed[need] as number]?.of ?? []);
    best = { unit, of, bestWeek: option.week, scope: option.work.scope, extra };
  }
  return best;
}

function waitingOf(
  fleet: FleetProgramme,
  taken: ReadonlySet<number>,
  { unfitted, problem }: { readonly unfitted: readonly NotFitted[]; readonly problem: PlanProblem },
): Waiting[] {
  const left = [...taken].flatMap((option) => {
    const { unit, work } = fleet.options[option] as PlanOption;
    return work === null ? (fleet.programme.options[option]?.covers ?? []).map((need) => ({ unit, need })) : [];
  });
  return left
    .flatMap(({ unit: u, need }): Waiting[] => {
      const { unit, needs, disposalWeek } = (fleet.costs[u] as FleetProgramme["costs"][number]).unit;
      const of = needs[fleet.placeOfNeed[need] as number];
      if (of === undefined || unfitted.some((one) => one.unit === unit && one.of.includes(of.of))) return [];
      const ifKept = of.crossed[problem.weeks] as number;
      if (disposalWeek === null || disposalWeek >= problem.weeks) return [{ unit, of: of.of, chance: ifKept }];
      const sold = { start: mondayOf(problem.firstMonday, disposalWeek), ifKept };
      return [{ unit, of: of.of, chance: of.crossed[disposalWeek] as number, sold }];
    })
    .toSorted((a, b) => b.chance - a.chance || (a.unit < b.unit ? -1 : 1));
}
