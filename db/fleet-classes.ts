import { asc, isNotNull } from "drizzle-orm";
import { remembered } from "./remembered.ts";
import type { Store } from "./store.ts";

/** The classes that units of the fleet have. Ascending. */
export const fleetClasses = remembered("fleet-classes", async ({ q, fleetRows }: Store): Promise<string[]> => {
  const rows = await q
    .selectDistinct({ unitClass: fleetRows.unitClass })
    .from(fleetRows)
    .where(isNotNull(fleetRows.unitClass))
    .orderBy(asc(fleetRows.unitClass));
  return rows.flatMap(({ unitClass }) => unitClass ?? []);
});
