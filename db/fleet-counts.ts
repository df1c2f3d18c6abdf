import { and, asc, count, eq, gt, isNotNull, isNull, lte, max, type SQL, sql } from "drizzle-orm";
import type { FleetCounts, FleetGroup, FleetGrouping, FleetPart, FleetQuery } from "../lib/schema/report.ts";
import { groupKey, groupOrder, isOverdue, ofPart, ofQuery } from "./fleet-order.ts";
import { remembered } from "./remembered.ts";
import type { Store } from "./store.ts";

const where = (condition: SQL | undefined) =>
  sql<number>`count(case when ${condition ?? sql`false`} then 1 end)`.mapWith(Number);

/** A repair is likely (P50) by then; what has crossed its limit is told as that. */
const likelyUntil = (fleetRows: Store["fleetRows"], date: string) =>
  and(eq(fleetRows.duePlace, 1), lte(fleetRows.dueDate, date));

/**
 * Of a part of the fleet, whichever band a query looks for. `questions`: units with a question for a person;
 * `soonUntil`: the last date that counts as soon for a likely repair.
 */
export const fleetCounts = remembered(
  "fleet-counts",
  async (
    { q, fleetRows }: Store,
    { part, soonUntil }: { readonly part: FleetPart; readonly soonUntil: string },
  ): Promise<FleetCounts> => {
    const [row] = await q
      .select({
        all: count(),
        sound: where(eq(fleetRows.band, "sound")),
        watch: where(eq(fleetRows.band, "watch")),
        plan: where(eq(fleetRows.band, "plan")),
        pastLimit: where(eq(fleetRows.band, "past-limit")),
        neverTested: where(isNull(fleetRows.lastTestDate)),
        planSoon: where(and(eq(fleetRows.band, "plan"), likelyUntil(fleetRows, soonUntil))),
        overdue: where(isOverdue(fleetRows)),
        questions: where(gt(fleetRows.questions, 0)),
      })
      .from(fleetRows)
      .where(ofPart(fleetRows, part));
    const { sound, watch, plan, pastLimit, ...counts } = row!;
    return { ...counts, byBand: { sound, watch, plan, "past-limit": pastLimit } };
  },
);

/** Every unit of the fleet, or of one depot, however many a query finds. */
export async function countUnits({ q, fleetRows }: Store, depot: string | null = null): Promise<number> {
  const [row] = await q
    .select({ all: count() })
    .from(fleetRows)
    .where(depot === null ? undefined : eq(fleetRows.depot, depot));
  return row!.all;
}

/** The groups that the units found fall into, in the order in which the table shows them; over all of its pages. */
export async function fleetGroups(
  { q, fleetRows }: Store,
  query: FleetPart & Pick<FleetQuery, "band">,
  { group, soonUntil }: { readonly group: FleetGrouping; readonly soonUntil: string },
): Promise<FleetGroup[]> {
  const key = groupKey(fleetRows, group);
  const rows = await q
    .select({
      key: sql<string | null>`${key}`,
      modelName: max(fleetRows.modelName),
      units: count(),
      pastLimit: where(eq(fleetRows.band, "past-limit")),
      soon: where(likelyUntil(fleetRows, soonUntil)),
    })
    .from(fleetRows)
    .where(ofQuery(fleetRows, query))
    .groupBy(key)
    .orderBy(...groupOrder(fleetRows, group));
  return rows.map(({ modelName, ...row }) => ({ ...row, name: group === "model" ? modelName : row.key }));
}

/** The likely repair of each unit at plan that falls due by a date, soonest first; units without a depot left out. */
export const plannedDue = remembered(
  "planned-due",
  async (
    { q, fleetRows }: Store,
    { part, soonUntil }: { readonly part: FleetPart; readonly soonUntil: string },
  ): Promise<{ depot: string; dueDate: string }[]> => {
    const rows = await q
      .select({ depot: fleetRows.depot, dueDate: fleetRows.dueDate })
      .from(fleetRows)
      .where(
        and(
          ofPart(fleetRows, part),
          eq(fleetRows.band, "plan"),
          likelyUntil(fleetRows, soonUntil),
          isNotNull(fleetRows.depot),
        ),
      )
      .orderBy(asc(fleetRows.dueDate));
    return rows.flatMap(({ depot, dueDate }) => (depot === null || dueDate === null ? [] : [{ depot, dueDate }]));
  },
);
