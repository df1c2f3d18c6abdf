import { factsVersion } from "../../db/meta.ts";
import { putPoolsInForce } from "../../db/pools.ts";
import type { Store } from "../../db/store.ts";
import { type EngineWearInput, fitKindSteps, poolKinds, wearInputOf } from "../../lib/assessment/pools.ts";
import { stripDownsOf } from "../../lib/cause/strip-downs.ts";
import type { InstrumentBias } from "../../lib/schema/comparison.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import type { StripDown } from "../../lib/schema/strip-down.ts";
import type { FleetIndex, UnitHistory } from "../../lib/sealing/types.ts";
import type { FactsChange } from "./facts-change.ts";
import { type FleetKind, type FleetKinds, kindKey } from "./fleet-kinds.ts";
import { fleetParts } from "./fleet-parts.ts";
import { guarded } from "./guarded.ts";
import { biasesIn, eachOnce, type KeptWearPool, keptPools, poolsToKeep } from "./kept-pools.ts";
import { breather, type JobControl, progressOf } from "./progress.ts";

export interface PoolFit extends Pick<FleetKinds, "usualMeterUnits" | "kinds"> {
  readonly asOf: IsoDate;
  /** The kinds to be fitted anew. */
  readonly due: readonly FleetKind[];
  /** Laid over the facts; nothing fitted with it may be kept. */
  readonly change?: FactsChange | undefined;
  /** Instruments that read off; left out: those in force. */
  readonly biases?: readonly InstrumentBias[];
}

/** Fits the pools that are due and puts them in force at the instant `at`. Gives the pools in force. */
export async function fitDuePools(
  store: Store,
  { at, ...fit }: Omit<PoolFit, "change"> & { readonly at: string },
  control: JobControl = {},
): Promise<KeptWearPool[]> {
  const fitted = await fittedPools(store, fit, control);
  if (fitted.isNew) await putPoolsInForce(store, fitted.pools, { at });
  return fitted.isNew ? await keptPools(store) : fitted.pools;
}

/**
 * Fits the pools of the kinds that are due; those of other kinds stay, but for kinds that no unit belongs to any more.
 * Two passes over the facts of these kinds, so that no more than a part of the fleet lies in memory: the units' meters
 * first, then the sampled engines. Keeps nothing; `isNew`: other pools than those in force came of it.
 */
export async function fittedPools(
  store: Store,
  fit: PoolFit,
  control: JobControl = {},
): Promise<{ readonly pools: KeptWearPool[]; readonly isNew: boolean }> {
  const version = await factsVersion(store, store.q);
  const kept = await keptPools(store);
  const keyOf = ({ model, meterUnit }: Pick<FleetKind, "model" | "meterUnit">) => kindKey(model.id, meterUnit);
  const due = new Map(fit.due.map((kind) => [keyOf(kind), kind]));
  const living = new Set(fit.kinds.map(keyOf));
  const staying = kept.filter(({ engineModel, meterUnit }) => {
    const key = kindKey(engineModel, meterUnit);
    return living.has(key) && !due.has(key);
  });
  if (due.size === 0 && staying.length === kept.length) return { pools: kept, isNew: false };

  const breathe = breather(control.signal);
  const units: UnitHistory[] = [];
  const opened: StripDown[] = [];
  const wanted = [...due.values()].flatMap((kind) => kind.units);
  for await (const { index } of fleetParts(store, wanted, fit)) {
    for (const unit of index.units) if (due.has(kindKey(unit.model.id, unit.meterUnit))) units.push(unit);
    opened.push(...stripDownsIn(index));
    control.onProgress?.(progressOf("gathering", { units: units.length, totalUnits: wanted.length }));
    await breathe();
  }
  const biases = fit.biases ?? eachOnce(kept.flatMap(biasesIn));
  const fresh: KeptWearPool[] = [];
  const kinds = poolKinds(units);
  const totalUnits = kinds.reduce((sum, kind) => sum + kind.engines.length, 0);
  let engines = 0;
  const tick = async (more: number) => {
    engines += more;
    control.onProgress?.(progressOf("fitting", { units: engines, totalUnits }));
    await breathe();
  };
  for (const kind of kinds) {
    const counted = due.get(keyOf(kind));
    if (counted === undefined) continue;
    const inputs = await inputsOf(store, kind, { ...fit, biases }, tick);
    const ofKind = opened.filter(({ engineModel, meterUnit }) => kindKey(engineModel, meterUnit) === keyOf(kind));
    const steps = fitKindSteps(kind, inputs, ofKind, fit.asOf);
    let step = steps.next();
    for (; !step.done; step = steps.next()) await breathe();
    fresh.push(...poolsToKeep(step.value, counted, { factsVersion: version, before: kept }));
    await breathe();
  }
  return { pools: [...staying, ...fresh], isNew: true };
}

/** What was found in the engines of a part; one that cannot be told is left out, and the assessment of its unit says so. */
function stripDownsIn(index: FleetIndex): readonly StripDown[] {
  return [...index.opened].toSorted().flatMap((key) => {
    const told = guarded(`the engine ${key}`, () => stripDownsOf(index.seal(key)));
    return told.ok ? told.value : [];
  });
}

/** What the sampled engines of a kind say, each sealed among the units that it was ever in. */
async function inputsOf(
  store: Store,
  kind: ReturnType<typeof poolKinds>[number],
  fit: PoolFit & Required<Pick<PoolFit, "biases">>,
  tick: (engines: number) => Promise<void>,
): Promise<readonly EngineWearInput[]> {
  const sampled = new Set(kind.engines);
  const holders = kind.units.filter((unit) => sampled.has(unit.engine)).map((unit) => unit.unit);
  const inputs: EngineWearInput[] = [];
  for await (const { index } of fleetParts(store, holders, fit)) {
    for (const key of index.engineKeys) {
      if (!sampled.has(key)) continue;
      // An engine that cannot be told is left out here; the assessment of its unit says so.
      const input = guarded(`the engine ${key}`, () => wearInputOf(index.seal(key), fit.biases));
      if (input.ok) inputs.push(input.value);
      await tick(1);
    }
  }
  return inputs;
}
