import type { IsoDate } from "../schema/facts.ts";
import { type PartGroup, type PartsDemand, partGroups } from "./parts-demand.ts";

/** What is needed in one week, of all units together. */
export interface PartsWeek {
  readonly start: IsoDate;
  readonly units: readonly string[];
  /** How many of each group, those that are needed. */
  readonly groups: readonly { readonly group: PartGroup; readonly count: number }[];
  readonly parts: number;
  readonly machining: number;
  /** The first of the days by which to order. */
  readonly orderBy: IsoDate;
}

/** Parts by week of need, ascending. */
export function partsWeeks(demand: readonly PartsDemand[]): readonly PartsWeek[] {
  const starts = [...new Set(demand.map(({ start }) => start))].toSorted();
  return starts.map((start) => {
    const here = demand.filter((of) => of.start === start);
    const count = (group: PartGroup) => here.filter(({ groups }) => groups.includes(group)).length;
    return {
      start,
      units: here.map(({ unit }) => unit).toSorted(),
      groups: partGroups.map((group) => ({ group, count: count(group) })).filter((of) => of.count > 0),
      parts: here.reduce((sum, { parts }) => sum + parts, 0),
      machining: here.reduce((sum, { machining }) => sum + machining, 0),
      orderBy: here.map((of) => of.orderBy).toSorted()[0] ?? start,
    };
  });
}
