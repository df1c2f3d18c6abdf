import { conditionEngine } from "../condition/condition.ts";
import { wearObservations } from "../projection/observations.ts";
import { engineSample, fitWearPool, type PoolInput } from "../projection/pool.ts";
import { priorPool } from "../projection/priors.ts";
import type { WearPool } from "../projection/types.ts";
import { ownUse, poolUse, type UsePool } from "../projection/use.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import type { IsoDate } from "../schema/facts.ts";
import { type JudgedMeasure, judgedMeasures, type MeterUnit } from "../schema/words.ts";
import type { FleetIndex } from "../sealing/types.ts";

/** What the fleet says of its engine models: wear by model, measure and meter unit, use by model and meter unit. */
export interface FleetPools {
  readonly wear: readonly WearPool[];
  readonly use: readonly KeptUsePool[];
}

export interface KeptUsePool extends UsePool {
  readonly engineModel: string;
  readonly meterUnit: MeterUnit;
}

/**
 * Fits every pool that the fleet's units need, from at most `engineSample` engines each, picked evenly from their keys
 * in order, so that the same facts give the same pools.
 */
export function fitPools(index: FleetIndex, asOf: IsoDate): FleetPools {
  const kinds = new Map<string, { model: EngineModel; meterUnit: MeterUnit; engines: Set<string> }>();
  const use = new Map<string, { engineModel: string; meterUnit: MeterUnit; uses: ReturnType<typeof ownUse>[] }>();
  for (const unit of index.units) {
    const key = `${unit.model.id}\u0000${unit.meterUnit}`;
    const kind = kinds.get(key) ?? { model: unit.model, meterUnit: unit.meterUnit, engines: new Set() };
    kinds.set(key, kind);
    kind.engines.add(unit.engine);
    const uses = use.get(key) ?? { engineModel: unit.model.id, meterUnit: unit.meterUnit, uses: [] };
    use.set(key, uses);
    uses.uses.push(ownUse(unit.meterPoints, asOf));
  }
  const wear: WearPool[] = [];
  for (const kind of kinds.values()) {
    const inputs: Record<JudgedMeasure, PoolInput[]> = { "leak-down": [], "compression-dry": [] };
    for (const key of pickEvenly([...kind.engines].toSorted(), engineSample)) {
      const conditioned = conditionEngine(index.seal(key));
      for (const measure of judgedMeasures) {
        inputs[measure].push({ key, observations: wearObservations(conditioned, measure) });
      }
    }
    for (const measure of judgedMeasures) {
      wear.push(fitWearPool(kind.model, measure, kind.meterUnit, inputs[measure]));
    }
  }
  return {
    wear,
    use: [...use.values()].map(({ engineModel, meterUnit, uses }) => ({
      engineModel,
      meterUnit,
      ...poolUse(uses, meterUnit),
    })),
  };
}

/** The wear pool for one kind of engine; where none was fitted yet, the starting values. */
export function wearPoolFor(
  pools: FleetPools,
  model: EngineModel,
  measure: JudgedMeasure,
  meterUnit: MeterUnit,
): WearPool {
  const fitted = pools.wear.find(
    (p) => p.engineModel === model.id && p.measure === measure && p.meterUnit === meterUnit,
  );
  return fitted ?? { ...priorPool(model, measure, meterUnit), engines: 0, tests: 0, fingerprint: "prior" };
}

export function usePoolFor(pools: FleetPools, model: EngineModel, meterUnit: MeterUnit): UsePool {
  return pools.use.find((p) => p.engineModel === model.id && p.meterUnit === meterUnit) ?? poolUse([], meterUnit);
}

function pickEvenly<T>(items: readonly T[], most: number): T[] {
  if (items.length <= most) return [...items];
  return Array.from({ length: most }, (_, i) => items[Math.floor((i * items.length) / most)] as T);
}
