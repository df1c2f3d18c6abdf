import { and, asc, count, desc, eq, isNotNull, ne, or } from "drizzle-orm";
import type { EngineModel } from "../lib/schema/engine-model.ts";
import type { Band, MeterUnit } from "../lib/schema/words.ts";
import { visibleFacts } from "./comparison-facts.ts";
import { type FactKind, factKinds, keyOf } from "./fact-kinds.ts";
import { nameOrder } from "./fleet-row.ts";
import { remembered } from "./remembered.ts";
import type { Schema } from "./schema.ts";
import { standing } from "./schema-facts.ts";
import type { Store } from "./store.ts";

const kind: FactKind = factKinds.models;

/** The engine models that stand, by their ids (2 before 10). */
export async function standingModels(store: Store): Promise<EngineModel[]> {
  const facts = await visibleFacts(store, store.q, kind);
  const models = [...facts.values()].map((layers) => layers[0]!["model"] as EngineModel);
  return models.sort((a, b) => (nameOrder(a.id) < nameOrder(b.id) ? -1 : 1));
}

/** Whether any engine model that stands is one of aircraft. */
export const knowsAircraft = remembered(
  "knows-aircraft",
  async (store: Store): Promise<boolean> => (await standingModels(store)).some(({ aircraft }) => aircraft),
);

/** One engine model as it stands; null: not known. */
export async function standingModel(store: Store, engineModel: string): Promise<EngineModel | null> {
  const facts = await visibleFacts(store, store.q, kind, { keys: [keyOf({ engineModel }, kind.key)] });
  const [layers] = [...facts.values()];
  return (layers?.[0]?.["model"] as EngineModel | undefined) ?? null;
}

type Import = Schema["imports"]["$inferSelect"];
type Version = Schema["engineModelVersions"]["$inferSelect"];
export type ModelVersion = Pick<Version, "importId" | "model"> & {
  /** Counts up from 1; a number may be missing where an import told it again, or its change was declined. */
  readonly version: number;
} & Pick<Import, "state" | "origin" | "committedAt" | "committedBy" | "undoneAt" | "undoneBy">;

/** What of an engine model was ever taken in, newest first; also versions undone since. */
export async function modelVersions(store: Store, engineModel: string): Promise<ModelVersion[]> {
  const { q, imports, engineModelVersions: versions } = store;
  const { state, origin, committedAt, committedBy, undoneAt, undoneBy } = imports;
  const rows = await q
    .select({
      importId: versions.importId,
      model: versions.model,
      version: versions.version,
      state,
      origin,
      committedAt,
      committedBy,
      undoneAt,
      undoneBy,
    })
    .from(versions)
    .innerJoin(imports, eq(imports.id, versions.importId))
    .where(
      and(
        eq(versions.engineModel, engineModel),
        isNotNull(versions.version),
        or(ne(versions.standing, standing.changed), eq(imports.takeChanges, true)),
      ),
    )
    .orderBy(desc(versions.version));
  return rows.map((row) => ({ ...row, version: row.version ?? 0 }));
}

/** How many units of a model, on meters that count alike, stand in a band; null: never tested, or not judged yet. */
export interface ModelUnits {
  readonly engineModel: string;
  readonly meterUnit: MeterUnit;
  readonly band: Band | null;
  readonly units: number;
}

export async function unitsByModel({ q, fleetRows }: Store, only?: string): Promise<ModelUnits[]> {
  const { engineModel, meterUnit, band } = fleetRows;
  return await q
    .select({ engineModel, meterUnit, band, units: count() })
    .from(fleetRows)
    .where(only === undefined ? undefined : eq(engineModel, only))
    .groupBy(engineModel, meterUnit, band)
    .orderBy(asc(engineModel));
}
