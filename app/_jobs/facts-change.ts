import type { EngineModel } from "../../lib/schema/engine-model.ts";
import type { FleetFacts } from "../../lib/schema/facts.ts";

/** Facts that somebody thinks of giving: whole engine models, and where depots lie. */
export interface FactsChange {
  readonly models?: readonly EngineModel[];
  /** Without an altitude nothing is told of the depot, so what is known of it stays. */
  readonly depots?: readonly { readonly depot: string; readonly altitudeM: number | null }[];
}

/** Engine models by their id, as they would stand. */
export const modelsWith = (
  models: ReadonlyMap<string, EngineModel>,
  change: FactsChange = {},
): ReadonlyMap<string, EngineModel> =>
  new Map([...models, ...(change.models ?? []).map((model) => [model.id, model] as const)]);

/** The facts as they would stand; nothing is kept. */
export function laidOver(facts: FleetFacts, change: FactsChange = {}): FleetFacts {
  const told = new Map((change.depots ?? []).map((depot) => [depot.depot, depot]));
  const depots = facts.depots.map((fact) => ({
    ...fact,
    altitudeM: told.get(fact.depot)?.altitudeM ?? fact.altitudeM,
  }));
  const known = new Set(depots.map(({ depot }) => depot));
  const fresh = [...told.values()].filter(({ depot }) => !known.has(depot));
  const models = new Map(facts.models.map((model) => [model.id, model]));
  return {
    ...facts,
    models: [...modelsWith(models, change).values()],
    depots: [...depots, ...fresh.map((depot) => ({ ...depot, file: "", line: 1 }))],
  };
}
