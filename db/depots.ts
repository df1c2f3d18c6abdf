import type { Schema } from "./schema.ts";
import type { Store } from "./store.ts";

export type DepotPeriodRow = Schema["depotPeriods"]["$inferSelect"];
export type DepotPeriod = Pick<DepotPeriodRow, "kind" | "firstDate" | "lastDate" | "remarks">;

/** Peak and closed periods in force, by depot and first date. */
export async function depotPeriods(store: Store): Promise<DepotPeriodRow[]> {
  throw new Error("body follows");
}

/** From now on the depot has exactly these periods; what was in force before stays in the history. */
export async function changeDepotPeriods(
  store: Store,
  depot: string,
  periods: readonly DepotPeriod[],
  { by, at }: { by: string; at: string },
): Promise<void> {
  throw new Error("body follows");
}
