import { asc, eq, inArray } from "drizzle-orm";
import { chunks, forChunks } from "./chunks.ts";
import type { Schema } from "./schema.ts";
import type { Store } from "./store.ts";

export type EngineRow = Schema["engines"]["$inferSelect"];
export type FittingRow = Schema["fittings"]["$inferSelect"];
/** An engine and the units that it was in, ascending by date. */
export type EngineWithFittings = EngineRow & { readonly fittings: readonly Omit<FittingRow, "engine" | "place">[] };

/**
 * Replaces every engine that was fitted to one of `units`, or that is among `engines`, by `engines`. Give all units
 * that are connected over shared engines, or an engine's stay in a unit not given is forgotten.
 */
export function replaceEngines(
  store: Store,
  { units, engines: given }: { units: readonly string[]; engines: readonly EngineWithFittings[] },
): Promise<void> {
  const { engines, fittings } = store;
  return store.tx(async (q) => {
    const fitted = await forChunks(units, (part) =>
      q.selectDistinct({ engine: fittings.engine }).from(fittings).where(inArray(fittings.unit, part)),
    );
    const replaced = new Set([...fitted.map((row) => row.engine), ...given.map((engine) => engine.engine)]);
    for (const part of chunks([...replaced])) await q.delete(engines).where(inArray(engines.engine, [...part]));
    await store.bulkInsert(q, engines, ["engine", "serial", "engineModel", "meterUnit"], given);
    const rows = given.flatMap(({ engine, fittings: of }) =>
      of.map((fitting, i) => ({ ...fitting, engine, place: i + 1 })),
    );
    await store.bulkInsert(q, fittings, ["engine", "place", "unit", "fromDate", "toDate", "fromX", "toX"], rows);
  });
}

/** Engines that are or were in a unit, by their first stay in it, each with all its fittings. */
export async function enginesOf(store: Store, unit: string): Promise<EngineWithFittings[]> {
  const { q, engines, fittings } = store;
  const here = q.select({ engine: fittings.engine }).from(fittings).where(eq(fittings.unit, unit));
  const rows = await q
    .select({ engine: engines, fitting: fittings })
    .from(fittings)
    .innerJoin(engines, eq(engines.engine, fittings.engine))
    .where(inArray(engines.engine, here))
    .orderBy(asc(engines.engine), asc(fittings.place));
  const byEngine = new Map<string, EngineRow & { fittings: EngineWithFittings["fittings"][number][] }>();
  for (const { engine, fitting } of rows) {
    const { engine: _engine, place: _place, ...stay } = fitting;
    const of = byEngine.get(engine.engine);
    if (of) of.fittings.push(stay);
    else byEngine.set(engine.engine, { ...engine, fittings: [stay] });
  }
  const firstStay = (engine: EngineWithFittings) => engine.fittings.find((stay) => stay.unit === unit)?.fromDate ?? "";
  return [...byEngine.values()].sort((a, b) =>
    firstStay(a) < firstStay(b) ? -1 : firstStay(a) > firstStay(b) ? 1 : 0,
  );
}
