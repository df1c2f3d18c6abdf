import { type AnyColumn, and, asc, count, eq, gt, isNotNull, isNull, lte, type SQL, sql } from "drizzle-orm";
import type { FleetCounts, FleetQuery, FleetRow } from "../lib/schema/report.ts";
import { toFleetRow } from "./fleet-row.ts";
import type { Store } from "./store.ts";
import { containsWords } from "./text-search.ts";

/**
 * One page of the Fleet table and how many units fulfil the query. Sorted ascending, `due` is soonest first (past a
 * limit before all), `band` most urgent first, `last-test` longest ago first, `use` least first. What has no value to
 * sort by comes last either way, and names decide between equals.
 */
export async function fleetPage(store: Store, query: FleetQuery): Promise<{ rows: FleetRow[]; total: number }> {
  const { q, fleetRows } = store;
  const wanted = conditions(store, query);
  const rows = await q
    .select()
    .from(fleetRows)
    .where(wanted)
    .orderBy(...order(store, query))
    .limit(query.pageSize)
    .offset((query.page - 1) * query.pageSize);
  const [row] = await q.select({ total: count() }).from(fleetRows).where(wanted);
  return { rows: rows.map(toFleetRow), total: row?.total ?? 0 };
}

function conditions({ fleetRows }: Store, { search, band, depot, model }: FleetQuery): SQL | undefined {
  return and(
    ...containsWords(fleetRows.searchText, search),
    depot === null ? undefined : eq(fleetRows.depot, depot),
    model === null ? undefined : eq(fleetRows.engineModel, model),
    bandCondition(fleetRows, band),
  );
}

function bandCondition(fleetRows: Store["fleetRows"], band: FleetQuery["band"]): SQL | undefined {
  if (band === null) return undefined;
  if (band === "never-tested") return isNull(fleetRows.lastTestDate);
  if (band === "overdue") return isOverdue(fleetRows);
  if (band === "question") return gt(fleetRows.questions, 0);
  return eq(fleetRows.band, band);
}

/** A unit that was never tested is told as that, not as overdue. */
const isOverdue = (fleetRows: Store["fleetRows"]) =>
  and(eq(fleetRows.testOverdue, true), isNotNull(fleetRows.lastTestDate)) as SQL;

function order({ fleetRows }: Store, { sort, descending }: FleetQuery): SQL[] {
  const by = (column: AnyColumn) => (descending ? sql`${column} desc nulls last` : sql`${column} asc nulls last`);
  const columns = {
    due: [by(fleetRows.duePlace), by(fleetRows.dueDate)],
    unit: [by(fleetRows.unitOrder)],
    band: [by(fleetRows.bandPlace)],
    "last-test": [by(fleetRows.lastTestDate)],
    use: [by(fleetRows.perDay)],
  } satisfies Record<FleetQuery["sort"], SQL[]>;
  return [...columns[sort], asc(fleetRows.unitOrder), asc(fleetRows.unit)];
}

/**
 * Of the whole fleet, whatever a query looks for. `questions`: units with a question for a person; `soonUntil`: the last
 * date that counts as soon for a likely repair.
 */
export async function fleetCounts({ q, fleetRows }: Store, soonUntil: string): Promise<FleetCounts> {
  const where = (condition: SQL) => sql<number>`count(case when ${condition} then 1 end)`.mapWith(Number);
  const [row] = await q
    .select({
      all: count(),
      sound: where(eq(fleetRows.band, "sound")),
      watch: where(eq(fleetRows.band, "watch")),
      plan: where(eq(fleetRows.band, "plan")),
      pastLimit: where(eq(fleetRows.band, "past-limit")),
      neverTested: where(isNull(fleetRows.lastTestDate)),
      planSoon: where(
        and(eq(fleetRows.band, "plan"), eq(fleetRows.duePlace, 1), lte(fleetRows.dueDate, soonUntil)) as SQL,
      ),
      overdue: where(isOverdue(fleetRows)),
      questions: where(gt(fleetRows.questions, 0)),
    })
    .from(fleetRows);
  const { sound, watch, plan, pastLimit, ...counts } = row!;
  return { ...counts, byBand: { sound, watch, plan, "past-limit": pastLimit } };
}

/** What the filters may be set to: depots and models that units have, ascending. */
export async function fleetOptions({
  q,
  fleetRows,
}: Store): Promise<{ depots: string[]; models: { id: string; name: string }[] }> {
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
}
