import { fingerprintOf } from "../fingerprint.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import { inOneGo } from "../steps.ts";
import { besideOther, type Pair, pairsOf } from "./beside.ts";
import type { WearObservations } from "./observations.ts";
import { wearScaleOf } from "./scale.ts";
import type { WearPool } from "./types.ts";
import { partsUnder } from "./wear-model.ts";

/** One engine by both measures. */
export interface BothMeasures {
  readonly key: string;
  readonly first: WearObservations;
  readonly second: WearObservations;
}

/**
 * Two pools of one engine model, one for each measure, with what either has learnt to say of the other from engines that
 * were tested both ways. The order of the engines does not matter.
 */
export function learnBeside(
  model: EngineModel,
  pools: readonly [WearPool, WearPool],
  engines: readonly BothMeasures[],
): readonly [WearPool, WearPool] {
  return inOneGo(learnBesideSteps(model, pools, engines));
}

/** The same by steps of one engine each, so that others may work in between. */
export function* learnBesideSteps(
  model: EngineModel,
  [first, second]: readonly [WearPool, WearPool],
  engines: readonly BothMeasures[],
): Generator<void, readonly [WearPool, WearPool]> {
  const pairs: Pair[] = [];
  for (const engine of engines.toSorted((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0))) {
    if (engine.first.tests.length === 0 || engine.second.tests.length === 0) continue;
    const own = partsUnder(engine.first, first, wearScaleOf(model, first.measure)).own;
    const other = partsUnder(engine.second, second, wearScaleOf(model, second.measure)).own;
    pairs.push(...pairsOf(own, other));
    yield;
  }
  const turned = pairs.map(({ level, variance, other, otherVariance }) => ({
    level: other,
    variance: otherVariance,
    other: level,
    otherVariance: variance,
  }));
  return [withOtherOf(first, besideOther(pairs)), withOtherOf(second, besideOther(turned))];
}

function withOtherOf({ fingerprint: _old, ...pool }: WearPool, other: WearPool["other"]): WearPool {
  const told = { ...pool, other };
  return { ...told, fingerprint: fingerprintOf(JSON.stringify(told)) };
}
