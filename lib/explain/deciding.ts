import type { AssessedUnit } from "../assess.ts";
import type { CylinderState, MeasureState } from "../assessment/engine.ts";
import { probabilityWithin, useQuantile } from "../projection/crossing.ts";
import type { CrossingDistribution } from "../projection/types.ts";
import type { Crossing } from "../schema/assessment.ts";
import type { RepairSide, Wanted } from "./types.ts";

/** The place whose crossing decides the unit's sooner window. */
export interface Deciding {
  readonly side: RepairSide;
  readonly window: Crossing;
  readonly cylinder: CylinderState;
  readonly measure: MeasureState;
  /** Chance that its growth is of the window's class of repair. */
  readonly classProbability: number;
}

/** As the unit's finding has it: by the likely date, without one by the early date, without that by the chance in a year. */
const order = ({ date, probabilityWithinYear }: Crossing): string =>
  date.p50 ?? `~${date.p10 ?? "9999"}~${(1 - (probabilityWithinYear ?? 0)).toFixed(4)}`;

/**
 * Of the sooner window, the cylinder and measure that most probably have crossed, and are of the window's class, by the
 * window's likely distance (without one: its early distance; without that: the end of the horizon). null: no cylinder has
 * tests enough, or none is judged on what was tested.
 * @param wanted a class of repair or a cylinder in the place of what decides
 */
export function decidingPlace({ state, windows }: AssessedUnit, wanted: Wanted = {}): Deciding | null {
  const sides: readonly RepairSide[] =
    order(windows.bottomEnd) < order(windows.topEnd) ? ["bottomEnd", "topEnd"] : ["topEnd", "bottomEnd"];
  for (const side of sides.filter((one) => wanted.side === undefined || one === wanted.side)) {
    const distribution = side === "topEnd" ? windows.topEndDistribution : windows.bottomEndDistribution;
    if (distribution === null) continue;
    const ahead = decidingDistance(distribution);
    let best: (Deciding & { readonly score: number }) | null = null;
    for (const cylinder of state.cylinders) {
      const { diagnosis } = cylinder;
      if (wanted.cylinder !== undefined && diagnosis.cylinder !== wanted.cylinder) continue;
      const repairable = diagnosis.topEnd + diagnosis.bottomEnd;
      const classProbability = repairable > 0 ? diagnosis[side] / repairable : 0.5;
      for (const measure of cylinder.measures) {
        if (measure.distribution === null) continue;
        const score = classProbability * probabilityWithin(measure.distribution, ahead);
        if (best === null || score > best.score) {
          best = { side, window: windows[side], cylinder, measure, classProbability, score };
        }
      }
    }
    if (best !== null) return best;
  }
  return null;
}

function decidingDistance(distribution: CrossingDistribution): number {
  return useQuantile(distribution, 0.5) ?? useQuantile(distribution, 0.1) ?? (distribution.ahead.at(-1) as number);
}
