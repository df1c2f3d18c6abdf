import { and, eq, inArray, isNull } from "drizzle-orm";
import { forChunks } from "./chunks.ts";
import { enginesOf } from "./engines.ts";
import type { Store } from "./store.ts";

/** What is known of the engine in a unit. */
export interface EngineNow {
  /** null: no record names it. */
  readonly serial: string | null;
  /** The unit never had another one. */
  readonly isFirst: boolean;
}

/** The engine in a unit now; null: nothing is known of the unit's engines. */
export async function engineNow(store: Store, unit: string): Promise<EngineNow | null> {
  const stays = (await enginesOf(store, unit)).flatMap((engine) =>
    engine.fittings.filter((stay) => stay.unit === unit).map((stay) => ({ serial: engine.serial, stay })),
  );
  const now = stays.find(({ stay }) => stay.toDate === null);
  return now === undefined ? null : { serial: now.serial, isFirst: stays.length === 1 };
}

/** The units that have engines of these serial numbers now, by serial number. */
export async function unitsFittedWith(store: Store, serials: readonly string[]): Promise<ReadonlyMap<string, string>> {
  const { q, engines, fittings } = store;
  const rows = await forChunks(serials, (part) =>
    q
      .select({ serial: engines.serial, unit: fittings.unit })
      .from(fittings)
      .innerJoin(engines, eq(engines.engine, fittings.engine))
      .where(and(inArray(engines.serial, part), isNull(fittings.toDate))),
  );
  return new Map(rows.map(({ serial, unit }) => [serial ?? "", unit]));
}
