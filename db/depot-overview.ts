import { and, asc, count, desc, eq, exists, isNotNull, sql } from "drizzle-orm";
import type { Band } from "../lib/schema/words.ts";
import { visibleFacts } from "./comparison-facts.ts";
import { type DepotChange, depotSetups, saysNothing } from "./depots.ts";
import { factKinds, layered } from "./fact-kinds.ts";
import { remembered } from "./remembered.ts";
import type { ImportState } from "./schema-imports.ts";
import type { Store } from "./store.ts";

/** What is known of a depot, for its page and the list of all. */
export interface DepotOverview {
  readonly depot: string;
  /** null: not known. */
  readonly altitudeM: number | null;
  /** Units that are there now, by band; `null` is the key of those never judged. */
  readonly units: ReadonlyMap<Band | null, number>;
  /** What people told of it last; null: nothing ever. */
  readonly change: DepotChange | null;
}

/** Every depot that a fact which stands, a unit or a calendar names, by name. */
export const depotOverviews = remembered("depot-overviews", async (store: Store): Promise<DepotOverview[]> => {
  const { q, fleetRows } = store;
  const altitudes = await depotAltitudes(store);
  const setups = await depotSetups(store);
  const units = new Map<string, Map<Band | null, number>>();
  const counted = await q
    .select({ depot: fleetRows.depot, band: fleetRows.band, units: count() })
    .from(fleetRows)
    .where(isNotNull(fleetRows.depot))
    .groupBy(fleetRows.depot, fleetRows.band);
  for (const { depot, band, units: here } of counted) {
    const bands = units.get(depot ?? "") ?? new Map<Band | null, number>();
    units.set(depot ?? "", bands.set(band, here));
  }
  const told = [...setups].filter(([, change]) => !saysNothing(change)).map(([depot]) => depot);
  const names = new Set([...altitudes.keys(), ...units.keys(), ...told, ...(await testedDepots(store))]);
  return [...names].sort().map((depot) => ({
    depot,
    altitudeM: altitudes.get(depot) ?? null,
    units: units.get(depot) ?? new Map(),
    change: setups.get(depot) ?? null,
  }));
});

async function depotAltitudes(store: Store): Promise<ReadonlyMap<string, number | null>> {
  const facts = [...(await visibleFacts(store, store.q, factKinds.depots)).values()];
  // A depot's columns are those of its table, by the same names.
  return new Map(
    facts.map((layers) => [
      layers[0]!["depot"] as string,
      layered(layers, ["altitudeM"])["altitudeM"] as number | null,
    ]),
  );
}

/** Depots that rows of tests name; the index holds all that is asked for. */
async function testedDepots({ q, tests, imports }: Store): Promise<string[]> {
  const rows = await q
    .selectDistinct({ depot: tests.depot })
    .from(tests)
    .where(
      and(
        isNotNull(tests.depot),
        exists(
          q
            .select({ one: sql`1` })
            .from(imports)
            .where(and(eq(imports.id, tests.importId), eq(imports.state, "committed"))),
        ),
      ),
    );
  return rows.map((row) => row.depot ?? "");
}

/** An import that told a depot's altitude: who, when, and whether it still counts. */
export interface AltitudeTold {
  readonly importId: string;
  readonly altitudeM: number | null;
  readonly by: string;
  readonly at: string;
  readonly state: ImportState;
  /** null: it was not undone. */
  readonly undoneBy: string | null;
}

/** Every altitude that a depot was ever given, newest first, also those undone since. */
export async function altitudeHistory({ q, depotFacts, imports }: Store, depot: string): Promise<AltitudeTold[]> {
  const rows = await q
    .select({
      importId: imports.id,
      altitudeM: depotFacts.altitudeM,
      by: imports.committedBy,
      at: imports.committedAt,
      state: imports.state,
      undoneBy: imports.undoneBy,
    })
    .from(depotFacts)
    .innerJoin(imports, eq(imports.id, depotFacts.importId))
    .where(and(eq(depotFacts.depot, depot), isNotNull(imports.rank)))
    .orderBy(desc(imports.rank), asc(depotFacts.id));
  return rows.map((row) => ({ ...row, by: row.by ?? "", at: row.at ?? "" }));
}
