import { asc, count, eq, inArray, isNotNull } from "drizzle-orm";
import type { FleetQuery, FleetRow } from "../lib/schema/report.ts";
import { ofQuery, orderOf } from "./fleet-order.ts";
import { toFleetRow } from "./fleet-row.ts";
import { remembered } from "./remembered.ts";
import type { Store } from "./store.ts";

/**
 * One page of the Fleet table and how many units fulfil the query. Sorted ascending, `due` is soonest first (past a
 * limit before all, at plan without a date as if due in a year), `band` most urgent first, tests longest ago or soonest due first, figures least first. What has no
 * value to sort by comes last either way, and names decide between equals. Groups stand together, before any sorting.
 */
export const fleetPage = remembered(
  "fleet-page",
  async (store: Store, query: FleetQuery): Promise<{ rows: FleetRow[]; total: number }> => {
    const { q, fleetRows } = store;
    const wanted = ofQuery(fleetRows, query);
    // Names are put in order first: rows are long, and the database would carry all of them through its sorting.
    const named = q
      .select({ unit: fleetRows.unit })
      .from(fleetRows)
      .where(wanted)
      .orderBy(...orderOf(fleetRows, query))
      .limit(query.pageSize)
      .offset((query.page - 1) * query.pageSize);
    const rows = await q
      .select()
      .from(fleetRows)
      .where(inArray(fleetRows.unit, named))
      .orderBy(...orderOf(fleetRows, query));
    const [row] = await q.select({ total: count() }).from(fleetRows).where(wanted);
    return { rows: rows.map(toFleetRow), total: row?.total ?? 0 };
  },
);

/** Every unit that fulfils the query, in its order, whatever page it asks for. */
export async function fleetUnits({ q, fleetRows }: Store, query: FleetQuery): Promise<FleetRow[]> {
  const rows = await q
    .select()
    .from(fleetRows)
    .where(ofQuery(fleetRows, query))
    .orderBy(...orderOf(fleetRows, query));
  return rows.map(toFleetRow);
}

/** What the filters may be set to: depots and models that units have, ascending. */
export const fleetOptions = remembered(
  "fleet-options",
  async ({ q, fleetRows }: Store): Promise<{ depots: string[]; models: { id: string; name: string }[] }> => {
    const depots = await q
      .selectDistinct({ depot: fleetRows.depot })
      .from(fleetRows)
      .where(isNotNull(fleetRows.depot))
      .orderBy(asc(fleetRows.depot));
    const models = await q
      .selectDistinct({ id: fleetRows.engineModel, name: fleetRows.modelName })
      .from(fleetRows)
      .orderBy(asc(fleetRows.modelName), asc(fleetRows.engineModel));
    return { depots: depots.map((row) => row.depot ?? ""), models };
  },
);

/** What an engine model is called that units have; null: none has it. */
export async function modelNameOf({ q, fleetRows }: Store, engineModel: string): Promise<string | null> {
  const [row] = await q
    .select({ name: fleetRows.modelName })
    .from(fleetRows)
    .where(eq(fleetRows.engineModel, engineModel))
    .limit(1);
  return row?.name ?? null;
}
