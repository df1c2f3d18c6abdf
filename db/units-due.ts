import { and, asc, count, eq, isNull, lte, or, type SQL } from "drizzle-orm";
import type { IsoDate } from "../lib/schema/facts.ts";
import type { Store } from "./store.ts";

/**
 * The units of a depot that are in service and whose test is due on or before a day, the first so many by that day, and
 * how many there are. Never tested: due now, so they come first.
 */
export async function unitsDue(
  { q, fleetRows }: Store,
  { depot, by, limit }: { readonly depot: string; readonly by: IsoDate; readonly limit: number },
): Promise<{ readonly units: readonly string[]; readonly total: number }> {
  const due: SQL | undefined = and(
    eq(fleetRows.depot, depot),
    eq(fleetRows.status, "in-service"),
    or(isNull(fleetRows.lastTestDate), eq(fleetRows.testOverdue, true), lte(fleetRows.nextTestDue, by)),
  );
  const rows = await q
    .select({ unit: fleetRows.unit })
    .from(fleetRows)
    .where(due)
    .orderBy(asc(fleetRows.nextTestDue), asc(fleetRows.unitOrder))
    .limit(limit);
  const [row] = await q.select({ total: count() }).from(fleetRows).where(due);
  return { units: rows.map(({ unit }) => unit), total: row?.total ?? 0 };
}
