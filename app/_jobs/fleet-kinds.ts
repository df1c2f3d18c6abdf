import { findingCounts } from "../../db/finding-counts.ts";
import { knownFleet } from "../../db/fleet-known.ts";
import type { Store } from "../../db/store.ts";
import { testCounts } from "../../db/test-counts.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import { type MeterUnit, meterUnits } from "../../lib/schema/words.ts";
import { type FactsChange, modelsWith } from "./facts-change.ts";

/** Units whose engines share a pool: of one engine model, on meters that count alike. */
export interface FleetKind {
  readonly model: EngineModel;
  readonly meterUnit: MeterUnit;
  /** Ascending. */
  readonly units: readonly string[];
  /** Tests known of all its units. */
  readonly tests: number;
  /** Repairs of its units that tell what was found. */
  readonly findings: number;
}

export interface FleetKinds {
  readonly kinds: readonly FleetKind[];
  /** The meter unit that most units of a model have, for units that tell none. */
  readonly usualMeterUnits: ReadonlyMap<string, MeterUnit>;
}

export const kindKey = (model: string, meterUnit: MeterUnit): string => `${model}\u0000${meterUnit}`;

/** How the units that are known now, or with a `change`, fall into kinds. Without a known engine model: into none. */
export async function fleetKinds(store: Store, change?: FactsChange): Promise<FleetKinds> {
  const { models: known, units } = await knownFleet(store, { today: null });
  const models = modelsWith(known, change);
  const [tests, findings] = await Promise.all([testCounts(store), findingCounts(store)]);
  const usualMeterUnits = usualOf([...units.values()]);
  const kinds = new Map<
    string,
    { model: EngineModel; meterUnit: MeterUnit; units: string[]; tests: number; findings: number }
  >();
  for (const [unit, { engineModel, meterUnit }] of [...units].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const model = engineModel === null ? undefined : models.get(engineModel);
    if (model === undefined) continue;
    const counted = meterUnit ?? usualMeterUnits.get(model.id) ?? "h";
    const key = kindKey(model.id, counted);
    const kind = kinds.get(key) ?? { model, meterUnit: counted, units: [], tests: 0, findings: 0 };
    kinds.set(key, kind);
    kind.units.push(unit);
    kind.tests += tests.get(unit) ?? 0;
    kind.findings += findings.get(unit) ?? 0;
  }
  return { kinds: [...kinds.values()], usualMeterUnits };
}

function usualOf(units: readonly { engineModel: string | null; meterUnit: MeterUnit | null }[]) {
  const usual = new Map<string, MeterUnit>();
  const counts = new Map<string, number>();
  for (const { engineModel, meterUnit } of units) {
    if (engineModel === null || meterUnit === null) continue;
    const key = kindKey(engineModel, meterUnit);
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  for (const model of new Set(units.map((unit) => unit.engineModel))) {
    if (model === null) continue;
    const of = (unit: MeterUnit) => counts.get(kindKey(model, unit)) ?? 0;
    const most = meterUnits.reduce((a, b) => (of(b) > of(a) ? b : a));
    if (of(most) > 0) usual.set(model, most);
  }
  return usual;
}
