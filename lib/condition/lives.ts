import type { EngineHistory, EngineRepair } from "../sealing/types.ts";

/** Use of one cylinder from one baseline to the next: [fromX, toX) on the engine's wear meter. */
export interface WearLife {
  readonly cylinder: number;
  /** The repair's x; of the first life the lowest x that the history knows of. */
  readonly fromX: number;
  /** null: still running. */
  readonly toX: number | null;
  /** null: as the history begins. */
  readonly startedBy: EngineRepair | null;
}

/** Repairs after which the cylinders that they name read from a new baseline. An adjustment is none (contract, section 3). */
export const givesBaseline = (repair: EngineRepair): boolean =>
  repair.scope === "top-end" || repair.scope === "bottom-end" || repair.scope === "complete";

/** Repairs that start a new life for rings, pistons and bores. */
export const renewsBottomEnd = (repair: EngineRepair): boolean =>
  repair.scope === "bottom-end" || repair.scope === "complete";

/**
 * The lives of every cylinder between repairs that gave it a new baseline, ascending by cylinder, then x. Each cylinder
 * has at least one, and they cover all use without a gap. A baseline is not a new life of every part: a top-end repair
 * leaves the rings as worn as they were, see `bottomEndRenewal`. A second repair at the same x starts no life of its own.
 */
export function wearLives(history: EngineHistory): readonly WearLife[] {
  const begin = Math.min(
    ...[history.fittings[0]?.fromX, history.tests[0]?.x, history.repairs[0]?.x].filter((x) => x !== undefined),
  );
  const baselines = history.repairs.filter(givesBaseline);
  const lives: WearLife[] = [];
  for (let cylinder = 1; cylinder <= history.model.cylinders; cylinder++) {
    let fromX = Number.isFinite(begin) ? begin : 0;
    let startedBy: EngineRepair | null = null;
    for (const repair of baselines) {
      if (!repair.cylinders.includes(cylinder)) continue;
      if (repair.x > fromX) {
        lives.push({ cylinder, fromX, toX: repair.x, startedBy });
        fromX = repair.x;
      }
      startedBy = repair;
    }
    lives.push({ cylinder, fromX, toX: null, startedBy });
  }
  return lives;
}

/** The last bottom-end or complete repair that names the cylinder; null: none is on file. */
export function bottomEndRenewal(history: EngineHistory, cylinder: number): EngineRepair | null {
  return history.repairs.findLast((r) => renewsBottomEnd(r) && r.cylinders.includes(cylinder)) ?? null;
}
