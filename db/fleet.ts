import type { FleetCounts, FleetQuery, FleetRow } from "../lib/schema/report.ts";
import type { Store } from "./store.ts";

export async function fleetPage(store: Store, query: FleetQuery): Promise<{ rows: FleetRow[]; total: number }> {
  throw new Error("body follows");
}

/** Of the whole fleet, whatever a query looks for. */
export async function fleetCounts(store: Store): Promise<FleetCounts> {
  throw new Error("body follows");
}

/** What the filters may be set to: depots and models that units have, ascending. */
export async function fleetOptions(
  store: Store,
): Promise<{ depots: string[]; models: { id: string; name: string }[] }> {
  throw new Error("body follows");
}
