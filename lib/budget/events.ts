import type { RepairClass, Work } from "../schema/kept-plan.ts";
import { never } from "./fates.ts";
import type { BudgetProblem, BudgetUnit } from "./types.ts";

/** What befalls one need in one draw, in weeks. */
export interface Fate {
  readonly of: RepairClass;
  readonly crosses: number;
  readonly fails: number;
}

export interface RepairEvent {
  readonly week: number;
  readonly work: Work;
  /** Class by which its hours and parts are drawn. */
  readonly of: RepairClass;
  readonly isPlanned: boolean;
  /** What its days out of service cost. */
  readonly downtime: number;
  /** What a failure makes the work dearer by; 1 where it was planned. */
  readonly factor: number;
}

/**
 * The repairs of a unit in one draw: what is booked when it is booked, unless it failed before and was put right then; what is not
 * booked some weeks after its limit was met, two together where they follow each other; nothing once the unit is sold.
 */
export function eventsOf(
  unit: BudgetUnit,
  booked: BudgetProblem["bookings"],
  fates: readonly Fate[],
  { missWeeks: usualMissWeeks, togetherWeeks }: Pick<BudgetProblem, "missWeeks" | "togetherWeeks">,
): readonly RepairEvent[] {
  const end = unit.disposalWeek ?? never;
  const missWeeks = unit.missWeeks ?? usualMissWeeks;
  const events: RepairEvent[] = [];
  const open = new Map(fates.map((fate) => [fate.of, fate]));
  const fail = ({ of, fails }: Fate) => {
    open.delete(of);
    const factor = unit.needs.find((need) => need.of === of)?.unplannedFactor ?? 1;
    if (fails >= end) return;
    const work = workCuring(unit, [of]);
    events.push({ week: fails, work, of, isPlanned: false, factor, downtime: unit.dayCost * work.daysOff });
  };
  const repair = (
    classes: readonly RepairClass[],
    week: number,
    work: Work,
    downtime = unit.dayCost * work.daysOff,
  ) => {
    for (const one of classes) open.delete(one);
    const of = classes.includes("bottomEnd") ? "bottomEnd" : "topEnd";
    if (week < end) events.push({ week, work, of, isPlanned: true, factor: 1, downtime });
  };
  for (const { scope, week, downtime, topEndPastLimit = false } of booked) {
    const work = unit.works.find((one) => one.scope === scope);
    if (work === undefined) continue;
    for (const of of work.cures) {
      const fate = open.get(of);
      if (fate !== undefined && fate.fails < week) fail(fate);
    }
    // What failed before was put right then; a class that is not in the forecast is repaired as it is booked.
    const left = work.cures.filter((of) => {
      if (topEndPastLimit && of === "topEnd" && work.spareOf === null && (open.get(of)?.crosses ?? never) > week)
        return false;
      return open.has(of) || !unit.needs.some((need) => need.of === of);
    });
    if (left.length === work.cures.length) repair(left, week, work, downtime);
    else if (left.length > 0) repair(left, week, workCuring(unit, left));
  }
  const due = [...open.values()].filter(({ crosses }) => crosses < never).toSorted((a, b) => a.crosses - b.crosses);
  const [first, second] = due;
  const both = unit.works.find(({ scope }) => scope === "both");
  if (
    first !== undefined &&
    second !== undefined &&
    both !== undefined &&
    second.crosses - first.crosses <= togetherWeeks &&
    Math.min(first.fails, second.fails) >= first.crosses + missWeeks
  ) {
    repair([first.of, second.of], first.crosses + missWeeks, both);
    return events;
  }
  for (const fate of due) {
    if (fate.fails < fate.crosses + missWeeks) fail(fate);
    else repair([fate.of], fate.crosses + missWeeks, workCuring(unit, [fate.of]));
  }
  return events;
}

/** The work that cures just these classes; where none does, one that cures them among others, a spare engine last. */
function workCuring({ unit, works }: BudgetUnit, classes: readonly RepairClass[]): Work {
  const curing = works.filter(({ cures }) => classes.every((of) => cures.includes(of)));
  const opened = curing.filter(({ spareOf }) => spareOf === null);
  const work = opened.find(({ cures }) => cures.length === classes.length) ?? opened[0] ?? curing[0];
  if (work === undefined) throw new Error(`unit ${unit} has a need that no work cures: ${classes.join(", ")}`);
  return work;
}
