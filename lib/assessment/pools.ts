import { addCounts, type CauseCounts, countStripDowns, noCounts } from "../cause/counts.ts";
import { stripDownsOf } from "../cause/strip-downs.ts";
import { conditionEngine } from "../condition/condition.ts";
import { type FamilySpreads, familySpread } from "../condition/family.ts";
import { type FamilyFit, type FamilyInput, familyInputOf, fitFamily } from "../condition/family-fit.ts";
import { type FleetRepeatability, fleetRepeatability } from "../condition/fleet-repeatability.ts";
import { usualErrors } from "../condition/reading-errors.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import { learnBesideSteps } from "../projection/learn-beside.ts";
import { wearObservations } from "../projection/observations.ts";
import { engineSample, fitWearPool, fitWearPoolSteps, type PoolInput } from "../projection/pool.ts";
import { startingSpread } from "../projection/priors.ts";
import { improvedSteps } from "../projection/project.ts";
import type { WearPool } from "../projection/types.ts";
import type { InstrumentBias } from "../schema/comparison.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { StripDown } from "../schema/strip-down.ts";
import { type JudgedMeasure, judgedMeasures, type MeterUnit } from "../schema/words.ts";
import type { EngineHistory, FleetIndex, UnitHistory } from "../sealing/types.ts";
import { inOneGo } from "../steps.ts";
import { type KeptUsePool, usePoolsOf } from "./use-pools.ts";

/**
 * What the fleet says of its engine models: wear by model, measure and meter unit, use by model and meter unit, and what
 * strip-downs found by the same.
 */
export interface FleetPools {
  readonly wear: readonly WearPool[];
  readonly use: readonly KeptUsePool[];
  readonly causes: readonly KeptCauses[];
  /** How sound cylinders of a kind differ; absent or without the kind: the starting values. */
  readonly families?: readonly KeptFamily[];
  /** Those that are not 1. The pools of the past have none: widths are learnt from what these foretell. */
  readonly widths?: readonly RangeWidth[];
  /** Instruments that read off in engine after engine (lib/comparison/instrument-biases.ts); the pools of the past have none. */
  readonly biases?: readonly InstrumentBias[];
}

/** What the ranges of one kind of engine and measure are multiplied by, as its past forecasts asked. */
export interface RangeWidth {
  readonly engineModel: string;
  readonly measure: JudgedMeasure;
  readonly meterUnit: MeterUnit;
  readonly factor: number;
}

/** What strip-downs found in engines of one kind; those of a model's kinds add up. */
export interface KeptCauses {
  readonly engineModel: string;
  readonly meterUnit: MeterUnit;
  readonly counts: CauseCounts;
}

/** How sound cylinders of a kind differ in one measure. */
export interface KeptFamily extends FamilyFit {
  readonly engineModel: string;
  readonly meterUnit: MeterUnit;
}

/** Engines of one model whose meters count alike, and the units that they are in: what shares a pool. */
export interface PoolKind {
  readonly model: EngineModel;
  readonly meterUnit: MeterUnit;
  readonly units: readonly UnitHistory[];
  /** The engines that the pools are fitted on, ascending; at most `engineSample`, picked evenly from their keys. */
  readonly engines: readonly string[];
}

/** The kinds that the units make up, in the order of their first unit. */
export function poolKinds(units: readonly UnitHistory[]): readonly PoolKind[] {
  const kinds = new Map<string, UnitHistory[]>();
  for (const unit of units) {
    const key = `${unit.model.id}\u0000${unit.meterUnit}`;
    const kind = kinds.get(key);
    if (kind === undefined) kinds.set(key, [unit]);
    else kind.push(unit);
  }
  return [...kinds.values()].map((ofKind) => {
    const { model, meterUnit } = ofKind[0] as UnitHistory;
    const engines = pickEvenly([...new Set(ofKind.map((unit) => unit.engine))].toSorted(), engineSample);
    return { model, meterUnit, units: ofKind, engines };
  });
}

/** What one engine says of the wear of its kind, for each measure. */
export type EngineWearInput = Readonly<Record<JudgedMeasure, PoolInput>> & {
  readonly family: Readonly<Record<JudgedMeasure, FamilyInput>>;
};

/**
 * @param biases instruments that are known to read off: what they read since a date is left out, for engine after engine
 *   would bear it out as wear of the whole kind; one that always reads off says nothing wrong of wear
 */
export function wearInputOf(history: EngineHistory, biases: readonly InstrumentBias[] = []): EngineWearInput {
  const since = biases.filter(({ from }) => from !== null);
  const conditioned = withoutBiased(conditionEngine(history, usualErrors, since));
  const all = Array.from({ length: history.model.cylinders }, (_, i) => i + 1);
  const input = (measure: JudgedMeasure): PoolInput => ({
    key: history.engine,
    // A step that nobody explained is no wear: read across it, it would pass for scatter of the tests. It breaks the
    // course of all cylinders, for each is compared with its siblings.
    observations: wearObservations(conditioned, measure, {
      steps: improvedSteps(conditioned, measure).map((step) => ({ ...step, cylinders: all })),
      reading: "renewed",
    }),
  });
  const family = (measure: JudgedMeasure) => familyInputOf(conditioned, measure);
  return {
    "leak-down": input("leak-down"),
    "compression-dry": input("compression-dry"),
    family: { "leak-down": family("leak-down"), "compression-dry": family("compression-dry") },
  };
}

const withoutBiased = (conditioned: ConditionedEngine): ConditionedEngine => ({
  ...conditioned,
  tests: conditioned.tests.map((of) =>
    of.doubts.some(({ code }) => code === "instrument-off") ? { ...of, weights: of.weights.map(() => 0) } : of,
  ),
});

/**
 * The pools of one kind, from what its sampled engines say.
 *
 * @param stripDowns of all its engines, not of the sampled ones alone: there are few
 */
export function fitKind(
  kind: PoolKind,
  inputs: readonly EngineWearInput[],
  stripDowns: readonly StripDown[],
  asOf: IsoDate,
): FleetPools {
  return inOneGo(fitKindSteps(kind, inputs, stripDowns, asOf));
}

/** The same by steps of a part of a second, so that others may work in between. */
export function* fitKindSteps(
  kind: PoolKind,
  inputs: readonly EngineWearInput[],
  stripDowns: readonly StripDown[],
  asOf: IsoDate,
): Generator<void, FleetPools> {
  const { model, meterUnit, units } = kind;
  const wearOf = (measure: JudgedMeasure) =>
    fitWearPoolSteps(
      model,
      measure,
      meterUnit,
      inputs.map((input) => input[measure]),
    );
  const [leakDown, compression] = [yield* wearOf("leak-down"), yield* wearOf("compression-dry")];
  return {
    wear: yield* learnBesideSteps(
      model,
      [leakDown, compression],
      inputs.map((input) => ({
        key: input["leak-down"].key,
        first: input["leak-down"].observations,
        second: input["compression-dry"].observations,
      })),
    ),
    use: [{ engineModel: model.id, meterUnit, ...usePoolsOf(units, meterUnit, asOf) }],
    causes: [{ engineModel: model.id, meterUnit, counts: countStripDowns(stripDowns) }],
    families: judgedMeasures.map((measure) => ({
      engineModel: model.id,
      meterUnit,
      ...fitFamily(
        measure,
        inputs.map((input) => input.family[measure]),
      ),
    })),
  };
}

/**
 * Fits every pool that the fleet's units need. The same facts give the same pools. An engine whose tests cannot be
 * reckoned with is left out; assessing its unit throws.
 *
 * @param biases instruments that are known to read off; `fitFleet` (lib/comparison/instrument-biases.ts) finds them
 */
export function fitPools(index: FleetIndex, asOf: IsoDate, biases: readonly InstrumentBias[] = []): FleetPools {
  const opened = [...index.opened].toSorted().flatMap((key) => stripDownsIn(index, key));
  const fitted = poolKinds(index.units).map((kind) =>
    fitKind(
      kind,
      kind.engines.flatMap((key) => wearInputsOf(index, key, biases)),
      opened.filter(({ engineModel, meterUnit }) => engineModel === kind.model.id && meterUnit === kind.meterUnit),
      asOf,
    ),
  );
  return {
    wear: fitted.flatMap((pools) => pools.wear),
    use: fitted.flatMap((pools) => pools.use),
    causes: fitted.flatMap((pools) => pools.causes),
    families: fitted.flatMap((pools) => pools.families ?? []),
    ...(biases.length === 0 ? {} : { biases }),
  };
}

function stripDownsIn(index: FleetIndex, key: string): readonly StripDown[] {
  try {
    return stripDownsOf(index.seal(key));
  } catch {
    return [];
  }
}

function wearInputsOf(index: FleetIndex, key: string, biases: readonly InstrumentBias[]): readonly EngineWearInput[] {
  try {
    return [wearInputOf(index.seal(key), biases)];
  } catch {
    return [];
  }
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
  return fitted ?? fitWearPool(model, measure, meterUnit, []);
}

/** What the ranges of one kind of engine are multiplied by; 1: told as they come. */
export function widthFor(
  { widths = [] }: FleetPools,
  model: EngineModel,
  measure: JudgedMeasure,
  meterUnit: MeterUnit,
): number {
  const own = widths.find((w) => w.engineModel === model.id && w.measure === measure && w.meterUnit === meterUnit);
  return own?.factor ?? 1;
}

const countsOfPools = new WeakMap<FleetPools, Map<string, CauseCounts>>();

/** What strip-downs of an engine model found, over all its kinds; the same object for the same pools. */
export function causeCountsFor(pools: FleetPools, model: EngineModel): CauseCounts {
  const known = countsOfPools.get(pools) ?? new Map<string, CauseCounts>();
  countsOfPools.set(pools, known);
  const counts =
    known.get(model.id) ??
    pools.causes
      .filter(({ engineModel, counts: { cases } }) => engineModel === model.id && cases > 0)
      .reduce((sum, kind) => addCounts(sum, kind.counts), noCounts);
  known.set(model.id, counts);
  return counts;
}

/** What one kind of engine's cylinders are held against; where nothing was fitted yet, the starting values. */
export function familySpreadsFor(
  { families = [] }: FleetPools,
  model: EngineModel,
  meterUnit: MeterUnit,
): FamilySpreads {
  const fleet = repeatabilityOf(families);
  const of = (measure: JudgedMeasure) => {
    const fit = families.find((f) => f.engineModel === model.id && f.measure === measure && f.meterUnit === meterUnit);
    return familySpread(measure, startingSpread(model, measure, meterUnit), fit ?? null, fleet[measure]);
  };
  return { "leak-down": of("leak-down"), "compression-dry": of("compression-dry") };
}

const repeatabilities = new WeakMap<readonly KeptFamily[], Readonly<Record<JudgedMeasure, FleetRepeatability>>>();

/** What readings of the fleet repeat to; kept as long as the pools are, for every unit asks. */
export function repeatabilityOf(families: readonly KeptFamily[]): Readonly<Record<JudgedMeasure, FleetRepeatability>> {
  const kept = repeatabilities.get(families);
  if (kept !== undefined) return kept;
  const made = {
    "leak-down": fleetRepeatability("leak-down", families),
    "compression-dry": fleetRepeatability("compression-dry", families),
  };
  repeatabilities.set(families, made);
  return made;
}

function pickEvenly<T>(items: readonly T[], most: number): T[] {
  if (items.length <= most) return [...items];
  return Array.from({ length: most }, (_, i) => items[Math.floor((i * items.length) / most)] as T);
}
