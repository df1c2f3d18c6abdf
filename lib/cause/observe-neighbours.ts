import type { Finding } from "./bayes.ts";
import { deficitPercent, type EngineView, medianOfOthers, ramp } from "./engine-view.ts";
import { partingOf } from "./parting.ts";

const pairPoints = 4;
const pairDeficitPercent = 7;

/**
 * A physical neighbour that is as bad as this cylinder while the others are not: both leak, or, where no leak-down
 * tells, both are low on compression. null: no such neighbour, or no third cylinder to compare with.
 */
export function observeNeighbours(view: EngineView, cylinder: number): Finding | null {
  let best: Finding | null = null;
  for (const neighbour of view.neighbours[cylinder - 1] ?? []) {
    const found = neighboursTogether(view, cylinder, neighbour);
    if (found !== null && (best === null || found.strength > best.strength)) best = found;
  }
  return best;
}

/** What two neighbours share; null: nothing. */
export const neighboursTogether = (view: EngineView, cylinder: number, neighbour: number): Finding | null =>
  leakTogether(view, cylinder, neighbour) ?? lowTogether(view, cylinder, neighbour);

function leakTogether(view: EngineView, cylinder: number, neighbour: number): Finding | null {
  const own = view.leakDown[cylinder - 1];
  const next = view.leakDown[neighbour - 1];
  const others = medianOfOthers(view.leakDown, [cylinder, neighbour]);
  if (own == null || next == null || others === null) return null;
  const lesser = Math.min(own.level, next.level);
  const above = Math.min(lesser - others, beyondOf(view, cylinder, neighbour), beyondOf(view, neighbour, cylinder));
  if (lesser < 0.8 * view.watchPercent || above < Math.max(pairPoints, 0.3 * others)) return null;
  // A third cylinder just as bad makes it no matter of this pair.
  if (hasThird(view, [cylinder, neighbour], (level) => level >= lesser - 1)) return null;
  const strength = ramp(above, 2, 9) * Math.min(own.trust, next.trust);
  return { id: "neighbours-leak-together", strength, slots: pairSlots(cylinder, neighbour), renewed: own.renewed };
}

/** Points of a cylinder's leakage beyond the proportion that it always had to those outside the pair. */
function beyondOf(view: EngineView, cylinder: number, neighbour: number): number {
  const readings = view.leakDown[cylinder - 1]?.readings ?? [];
  const isOutside = (other: number) => other !== cylinder && other !== neighbour;
  return partingOf(readings, view.engine.history.meterUnit, isOutside)?.beyond ?? Number.POSITIVE_INFINITY;
}

function lowTogether(view: EngineView, cylinder: number, neighbour: number): Finding | null {
  if (view.model.compression === undefined) return null;
  const own = view.compression[cylinder - 1];
  const next = view.compression[neighbour - 1];
  const others = medianOfOthers(view.compression, [cylinder, neighbour]);
  if (own == null || next == null || others === null) return null;
  const isLeakSound = [cylinder, neighbour].some((one) => {
    const leak = view.leakDown[one - 1];
    return leak != null && leak.level < 0.8 * view.watchPercent;
  });
  // A gasket that leaks shows in the leak-down; where that is sound, something else lowers the pressure.
  if (isLeakSound) return null;
  const deficit = deficitPercent(Math.max(own.level, next.level), others);
  if (deficit < pairDeficitPercent) return null;
  const strength = 0.7 * ramp(deficit, 4, 12) * Math.min(own.trust, next.trust);
  return { id: "neighbours-low-together", strength, slots: pairSlots(cylinder, neighbour), renewed: own.renewed };
}

const hasThird = (view: EngineView, pair: readonly number[], isBad: (level: number) => boolean): boolean =>
  view.leakDown.some((standing, index) => standing !== null && !pair.includes(index + 1) && isBad(standing.level));

const pairSlots = (a: number, b: number) => ({ pair: `${Math.min(a, b)} and ${Math.max(a, b)}` });
