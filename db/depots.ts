import { and, asc, eq, isNull } from "drizzle-orm";
import { type DepotPeriod, depotPeriodSchema } from "../lib/schema/depot.ts";
import { recordActivityWith } from "./activity.ts";
import { takeIds } from "./meta.ts";
import type { Schema } from "./schema.ts";
import type { Store } from "./store.ts";

type Columns = Schema["depotPeriods"]["$inferSelect"];
/** A period with the depot it is of, who gave it and when. */
export type DepotPeriodRow = DepotPeriod & Pick<Columns, "id" | "depot" | "by" | "at" | "endedAt">;

/** Peak and closed periods in force, by depot, in the order in which they were given. */
export async function depotPeriods({ q, depotPeriods: periods }: Store): Promise<DepotPeriodRow[]> {
  const rows = await q
    .select()
    .from(periods)
    .where(isNull(periods.endedAt))
    .orderBy(asc(periods.depot), asc(periods.id));
  return rows.map(toPeriod);
}

function toPeriod({ id, depot, by, at, endedAt, ...columns }: Columns): DepotPeriodRow {
  return { ...depotPeriodSchema.parse(columns), id, depot, by, at, endedAt };
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
    const blank = { firstWeek: null, lastWeek: null, firstDate: null, lastDate: null };
    const rows = given.map((period) => ({ ...blank, ...period, id: id++, depot, by, at }));
    if (rows[0]) await store.bulkInsert(q, periods, Object.keys(rows[0]), rows);
    const detail = { periods: given.length };
    await recordActivityWith(store, q, { at, by, action: "depot-periods-changed", about: depot, detail });
  });
}
