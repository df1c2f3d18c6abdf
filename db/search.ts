import { and, asc, desc, eq, isNotNull, isNull, max } from "drizzle-orm";
import type { Band } from "../lib/schema/words.ts";
import { depotOverviews } from "./depot-overview.ts";
import { isAskedFor, searchable } from "./searching.ts";
import type { Store } from "./store.ts";
import { containsWords, startsWith } from "./text-search.ts";

/** What the search of the header finds in the store: a few of each kind, what begins with the text first. */

export interface FoundUnit {
  readonly unit: string;
  readonly engineModel: string;
  readonly depot: string | null;
  readonly band: Band | null;
}

export interface FoundEngine {
  readonly engine: string;
  readonly serial: string;
  readonly engineModel: string;
  /** Where it is now; null: in no unit. */
  readonly unit: string | null;
}

/** Units whose number, depot, model, serial or weakest place holds every word of the text. */
export async function findUnits({ q, fleetRows }: Store, text: string, limit: number): Promise<FoundUnit[]> {
  return await q
    .select({
      unit: fleetRows.unit,
      engineModel: fleetRows.engineModel,
      depot: fleetRows.depot,
      band: fleetRows.band,
    })
    .from(fleetRows)
    .where(and(...containsWords(fleetRows.searchText, text, "unit")))
    .orderBy(desc(startsWith(fleetRows.unit, text)), asc(fleetRows.unitOrder), asc(fleetRows.unit))
    .limit(limit);
}

/** Engines with a serial number, by it, by their model and by the units that they are or were in. */
export async function findEngines(
  { q, engines, fittings }: Store,
  text: string,
  limit: number,
): Promise<FoundEngine[]> {
  const rows = await q
    .select({
      engine: engines.engine,
      serial: engines.serial,
      engineModel: engines.engineModel,
      // Records may leave an engine in two units at once.
      unit: max(fittings.unit),
    })
    .from(engines)
    .leftJoin(fittings, and(eq(fittings.engine, engines.engine), isNull(fittings.toDate)))
    .where(and(isNotNull(engines.serial), ...containsWords(engines.searchText, text, "engine")))
    .groupBy(engines.engine)
    .orderBy(desc(startsWith(engines.serial, text)), asc(engines.engineOrder), asc(engines.engine))
    .limit(limit);
  return rows.map(({ serial, ...row }) => ({ ...row, serial: serial ?? row.engine }));
}

/** Depots on the books whose name holds the words, by name: also those at which no unit stands. */
export async function findDepots(store: Store, text: string, limit: number): Promise<string[]> {
  return (await depotOverviews(store))
    .map(({ depot }) => depot)
    .filter((depot) => isAskedFor(depot, text, "depot"))
    .slice(0, limit);
}

/** Whether there is anything to look for. */
export const asksNothing = (text: string): boolean => searchable(text).trim() === "";
