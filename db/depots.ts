import { and, asc, eq, isNull } from "drizzle-orm";
import { recordActivityWith } from "./activity.ts";
import { takeIds } from "./meta.ts";
import type { Schema } from "./schema.ts";
import type { Store } from "./store.ts";

export type DepotPeriodRow = Schema["depotPeriods"]["$inferSelect"];
export type DepotPeriod = Pick<DepotPeriodRow, "kind" | "firstDate" | "lastDate" | "remarks">;

/** Peak and closed periods in force, by depot and first date. A week is given by its Monday and its Sunday. */
export async function depotPeriods({ q, depotPeriods: periods }: Store): Promise<DepotPeriodRow[]> {
  return await q
    .select()
    .from(periods)
    .where(isNull(periods.endedAt))
    .orderBy(asc(periods.depot), asc(periods.firstDate), asc(periods.id));
}

/** From now on the depot has exactly these periods; what was in force before stays in the history. */
export function changeDepotPeriods(
  store: Store,
  depot: string,
  given: readonly DepotPeriod[],
  { by, at }: { by: string; at: string },
): Promise<void> {
  const { depotPeriods: periods } = store;
  return store.tx(async (q) => {
    await q
      .update(periods)
      .set({ endedAt: at })
      .where(and(eq(periods.depot, depot), isNull(periods.endedAt)));
    let id = given.length === 0 ? 0 : await takeIds(store, q, given.length);
    const rows = given.map((period) => ({ ...period, id: id++, depot, by, at }));
    const columns = ["id", "depot", "kind", "firstDate", "lastDate", "remarks", "by", "at"];
    await store.bulkInsert(q, periods, columns, rows);
    const detail = { periods: given.length };
    await recordActivityWith(store, q, { at, by, action: "depot-periods-changed", about: depot, detail });
  });
}
