import { and, asc, count, eq, inArray, ne, sql } from "drizzle-orm";
import type { UnitReport } from "../lib/schema/report.ts";
import type { StripDown } from "../lib/schema/strip-down.ts";
import { chunks, forChunks } from "./chunks.ts";
import { nameOrder } from "./fleet-row.ts";
import { preparedFor } from "./prepared.ts";
import { remembered } from "./remembered.ts";
import type { Schema } from "./schema.ts";
import { searchTextOf } from "./searching.ts";
import type { Store } from "./store.ts";
import { containsWords } from "./text-search.ts";

type Columns = Schema["engines"]["$inferSelect"];
export type EngineRow = Pick<Columns, "engine" | "serial" | "engineModel" | "meterUnit">;
export type FittingRow = Schema["fittings"]["$inferSelect"];
/** An engine and the units that it was in, ascending by date. */
export type EngineWithFittings = EngineRow & { readonly fittings: readonly Omit<FittingRow, "engine" | "place">[] };

/** An engine to keep; with a report where it is in no unit now, and with what was found in it. */
export type EngineToKeep = EngineWithFittings & {
  readonly report?: UnitReport | null;
  readonly stripDowns?: readonly StripDown[];
};

/**
 * Replaces every engine that was fitted to one of `units`, or that is among `engines`, by `engines`. Give all units
 * that are connected over shared engines, or an engine's stay in a unit not given is forgotten.
 */
export function replaceEngines(
  store: Store,
  { units, engines: given }: { units: readonly string[]; engines: readonly EngineToKeep[] },
): Promise<void> {
  const { engines, fittings } = store;
  return store.tx(async (q) => {
    const fitted = await forChunks(units, (part) =>
      q.selectDistinct({ engine: fittings.engine }).from(fittings).where(inArray(fittings.unit, part)),
    );
    const replaced = new Set([...fitted.map((row) => row.engine), ...given.map((engine) => engine.engine)]);
    for (const part of chunks([...replaced])) await q.delete(engines).where(inArray(engines.engine, [...part]));
    const columns = [
      "engine",
      "serial",
      "engineModel",
      "meterUnit",
      "engineOrder",
      "searchText",
      "report",
      "stripDowns",
    ];
    const kept = given.map(({ fittings: of, ...engine }) => ({
      ...engine,
      report: engine.report ?? null,
      stripDowns: engine.stripDowns ?? [],
      engineOrder: nameOrder(engine.serial ?? engine.engine),
      searchText: searchTextOf([engine.engine, engine.engineModel, ...of.map(({ unit }) => unit)], []),
    }));
    await store.bulkInsert(q, engines, columns, kept);
    const rows = given.flatMap(({ engine, fittings: of }) =>
      of.map((fitting, i) => ({ ...fitting, engine, place: i + 1 })),
    );
    await store.bulkInsert(q, fittings, ["engine", "place", "unit", "fromDate", "toDate", "fromX", "toX"], rows);
  });
}

/** Engines that are or were in a unit, by their first stay in it, each with all its fittings. */
export async function enginesOf(store: Store, unit: string): Promise<EngineWithFittings[]> {
  const here = await enginesIn(store).all({ unit });
  const found = await withFittings(
    store,
    here.map(({ engine }) => engine),
  );
  const firstStay = (engine: EngineWithFittings) => engine.fittings.find((stay) => stay.unit === unit)?.fromDate ?? "";
  return found.sort((a, b) => (firstStay(a) < firstStay(b) ? -1 : firstStay(a) > firstStay(b) ? 1 : 0));
}

const enginesIn = preparedFor(({ q, fittings }) =>
  q
    .selectDistinct({ engine: fittings.engine })
    .from(fittings)
    .where(eq(fittings.unit, sql.placeholder("unit")))
    .prepare(),
);

/** One engine, and its own report where it is in no unit now; null: not known. */
export async function engineOf(
  store: Store,
  engine: string,
): Promise<(EngineWithFittings & { readonly report: UnitReport | null }) | null> {
  const [found] = await withFittings(store, [engine]);
  if (found === undefined) return null;
  const { q, engines } = store;
  const [row] = await q.select({ report: engines.report }).from(engines).where(eq(engines.engine, engine));
  return { ...found, report: row?.report ?? null };
}

/** Whether an engine of this key is known. */
export async function knowsEngine({ q, engines }: Store, engine: string): Promise<boolean> {
  const [row] = await q.select({ engine: engines.engine }).from(engines).where(eq(engines.engine, engine));
  return row !== undefined;
}

/** Every cylinder that a repair opened in any engine, with what had been seen before; those of one engine together. */
export const stripDownsKept = remembered(
  "strip-downs",
  async ({ q, engines }: Store): Promise<readonly StripDown[]> => {
    const rows = await q
      .select({ stripDowns: engines.stripDowns })
      .from(engines)
      .where(ne(engines.stripDowns, sql`'[]'`))
      .orderBy(asc(engines.engine));
    return rows.flatMap((row) => row.stripDowns);
  },
);

export interface EngineQuery {
  /** Finds text in serial number, model and units; case-insensitive. */
  readonly search: string;
  /** From 1. */
  readonly page: number;
  readonly pageSize: number;
}

/** One page of all engines, by their numbers (2 before 10), and how many fulfil the query. */
export async function enginePage(
  store: Store,
  { search, page, pageSize }: EngineQuery,
): Promise<{ rows: EngineWithFittings[]; total: number }> {
  const { q, engines } = store;
  const wanted = and(...containsWords(engines.searchText, search, "engine"));
  const here = await q
    .select({ engine: engines.engine })
    .from(engines)
    .where(wanted)
    .orderBy(asc(engines.engineOrder), asc(engines.engine))
    .limit(pageSize)
    .offset((page - 1) * pageSize);
  const keys = here.map(({ engine }) => engine);
  const byKey = new Map((await withFittings(store, keys)).map((engine) => [engine.engine, engine]));
  const [row] = await q.select({ total: count() }).from(engines).where(wanted);
  return { rows: keys.flatMap((key) => byKey.get(key) ?? []), total: row?.total ?? 0 };
}

/** Ascending by key. */
async function withFittings(store: Store, keys: readonly string[]): Promise<EngineWithFittings[]> {
  const { q, engines, fittings } = store;
  const rows = await forChunks(keys, (part) =>
    q
      .select({
        engine: {
          engine: engines.engine,
          serial: engines.serial,
          engineModel: engines.engineModel,
          meterUnit: engines.meterUnit,
        },
        fitting: fittings,
      })
      .from(fittings)
      .innerJoin(engines, eq(engines.engine, fittings.engine))
      .where(inArray(engines.engine, part))
      .orderBy(asc(engines.engine), asc(fittings.place)),
  );
  const byEngine = new Map<string, EngineRow & { fittings: EngineWithFittings["fittings"][number][] }>();
  for (const { engine, fitting } of rows) {
    const { engine: _engine, place: _place, ...stay } = fitting;
    const of = byEngine.get(engine.engine);
    if (of) of.fittings.push(stay);
    else byEngine.set(engine.engine, { ...engine, fittings: [stay] });
  }
  return [...byEngine.values()];
}
