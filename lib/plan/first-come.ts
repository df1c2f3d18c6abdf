import type { FleetProgramme, PlanOption } from "./fleet-programme.ts";
import { Choice } from "./programme.ts";
import { totalOf } from "./types.ts";

/**
 * Plans that can be had without a solver. The best of them is where the solver starts from, so that its plan is never dearer.
 */

/**
 * First come, first served: units in the order of their likely dates, each in the first week with room from that date on, by
 * the work for the class that is due; what finds no room within the plan is left until after it.
 */
export function firstComePlan(fleet: FleetProgramme): ReadonlySet<number> {
  const due = fleet.costs.flatMap(({ unit }, u) =>
    unit.needs.flatMap(({ of, crossed }) => {
      const week = crossed.findIndex((p) => p >= 0.5);
      return week < 0 ? [] : [{ unit: u, of, week }];
    }),
  );
  due.sort((a, b) => a.week - b.week || a.unit - b.unit);
  const choice = new Choice(fleet.programme);
  for (const { unit, of, week } of due) {
    const candidates = (fleet.byUnit[unit] ?? [])
      .filter((option) => {
        const { work, week: start } = optionAt(fleet, option);
        return work !== null && work.cures.length === 1 && work.cures[0] === of && start !== null && start >= week;
      })
      .toSorted((a, b) => (optionAt(fleet, a).week as number) - (optionAt(fleet, b).week as number));
    const first = candidates.find((option) => choice.fits(option));
    if (first !== undefined) choice.take(first);
  }
  return leaveTheRest(fleet, choice);
}

/**
 * Each unit at its cheapest, the one that has most to lose by waiting first, as far as there is room.
 */
export function cheapestFirstPlan(fleet: FleetProgramme): ReadonlySet<number> {
  const byUnit = fleet.byUnit.map((options) =>
    options
      .filter((option) => optionAt(fleet, option).work !== null)
      .map((option) => ({ option, gain: gainOf(fleet, option) }))
      .toSorted((a, b) => b.gain - a.gain),
  );
  const choice = new Choice(fleet.programme);
  for (const options of byUnit.toSorted((a, b) => (b[0]?.gain ?? 0) - (a[0]?.gain ?? 0))) {
    for (const { option } of options) if (choice.fits(option)) choice.take(option);
  }
  return leaveTheRest(fleet, choice);
}

const optionAt = ({ options }: FleetProgramme, option: number): PlanOption => options[option] as PlanOption;

/** What an option saves against leaving what it cures. */
function gainOf(fleet: FleetProgramme, option: number): number {
  const { programme } = fleet;
  const covers = programme.options[option]?.covers ?? [];
  let leaving = 0;
  for (const need of covers) leaving += leavingCost(fleet, need);
  return leaving - totalOf(optionAt(fleet, option).cost);
}

const leavingOf = new WeakMap<FleetProgramme, ReadonlyMap<number, number>>();

/** What a need costs that is left by itself. */
export function leavingCost(fleet: FleetProgramme, need: number): number {
  let kept = leavingOf.get(fleet);
  if (kept === undefined) {
    kept = new Map(
      fleet.programme.options.flatMap(({ covers, cost }, option) =>
        covers.length === 1 && optionAt(fleet, option).work === null ? [[covers[0] as number, cost]] : [],
      ),
    );
    leavingOf.set(fleet, kept);
  }
  return kept.get(need) ?? 0;
}

/** Covers what is open yet by leaving it, both at once where that costs less. */
function leaveTheRest(fleet: FleetProgramme, choice: Choice): ReadonlySet<number> {
  const leaving = fleet.programme.options
    .map((option, place) => ({ ...option, place }))
    .filter(({ place }) => optionAt(fleet, place).work === null)
    .toSorted(
      (a, b) => a.cost - sumOfLeaving(fleet, a.covers) - (b.cost - sumOfLeaving(fleet, b.covers)) || a.place - b.place,
    );
  for (const { place } of leaving) if (choice.fits(place)) choice.take(place);
  return choice.taken;
}

const sumOfLeaving = (fleet: FleetProgramme, covers: readonly number[]): number =>
  covers.reduce((sum, need) => sum + leavingCost(fleet, need), 0);
