import { type AnyColumn, and, asc, eq, gt, isNotNull, isNull, type SQL, sql } from "drizzle-orm";
import type { FleetGrouping, FleetPart, FleetQuery } from "../lib/schema/report.ts";
import type { Store } from "./store.ts";
import { containsWords } from "./text-search.ts";

type FleetRows = Store["fleetRows"];

/** Which rows a search, a depot and a model leave. */
export function ofPart(fleetRows: FleetRows, { search, depot, model }: FleetPart): SQL | undefined {
  return and(
    ...containsWords(fleetRows.searchText, search, "unit"),
    depot === null ? undefined : eq(fleetRows.depot, depot),
    model === null ? undefined : eq(fleetRows.engineModel, model),
  );
}

export const ofQuery = (fleetRows: FleetRows, query: FleetPart & Pick<FleetQuery, "band">): SQL | undefined =>
  and(ofPart(fleetRows, query), ofBand(fleetRows, query.band));

function ofBand(fleetRows: FleetRows, band: FleetQuery["band"]): SQL | undefined {
  if (band === null) return undefined;
  if (band === "never-tested") return isNull(fleetRows.lastTestDate);
  if (band === "overdue") return isOverdue(fleetRows);
  if (band === "question") return gt(fleetRows.questions, 0);
  return eq(fleetRows.band, band);
}

/** A unit that was never tested is told as that, not as overdue. */
export const isOverdue = (fleetRows: FleetRows) =>
  and(eq(fleetRows.testOverdue, true), isNotNull(fleetRows.lastTestDate)) as SQL;

/** What has no value to sort by comes last either way; names decide between equals. */
export function orderOf(fleetRows: FleetRows, { group, sort, descending }: FleetQuery): SQL[] {
  const by = (column: AnyColumn | SQL) => (descending ? sql`${column} desc nulls last` : sql`${column} asc nulls last`);
  const columns = {
    due: dueOrder(fleetRows).map(by),
    unit: [by(fleetRows.unitOrder)],
    band: [by(fleetRows.bandPlace)],
    "last-test": [by(fleetRows.lastTestDate)],
    use: [by(fleetRows.perDay)],
    depot: [by(fleetRows.depot)],
    model: [by(fleetRows.modelName), by(fleetRows.engineModel)],
    class: [by(fleetRows.unitClass)],
    "next-test": [by(fleetRows.nextTestDue)],
    "top-chance": [by(fleetRows.topEndChance)],
    "bottom-chance": [by(fleetRows.bottomEndChance)],
  } satisfies Record<FleetQuery["sort"], SQL[]>;
  const groups = group === null ? [] : groupOrder(fleetRows, group);
  return [...groups, ...columns[sort], asc(fleetRows.unitOrder), asc(fleetRows.unit)];
}

/**
 * Crossed, then by the likely date, then by the early one. A unit at plan by its level whose likely date cannot be told is
 * no less to be planned: it stands by its early date, and without one a year ahead, which is a usual lead time.
 */
function dueOrder({ asOf, band, duePlace, dueDate }: FleetRows): SQL[] {
  const isUndated = sql`(${band} = 'plan' and coalesce(${duePlace}, 2) = 2)`;
  const yearAhead = sql`(cast(substr(${asOf}, 1, 4) as integer) + 1) || substr(${asOf}, 5)`;
  return [
    sql`case when ${isUndated} then 1 else ${duePlace} end`,
    sql`case when ${isUndated} then coalesce(${dueDate}, ${yearAhead}) else ${dueDate} end`,
  ];
}

/** Groups have an order of their own, whichever way the units within them are sorted. */
export function groupOrder(fleetRows: FleetRows, group: FleetGrouping): SQL[] {
  if (group === "depot") return [sql`${fleetRows.depot} asc nulls last`];
  if (group === "model") return [asc(fleetRows.modelName), asc(fleetRows.engineModel)];
  return [sql`${fleetRows.bandPlace} asc nulls last`];
}

/** The column that tells one group from the next. */
export const groupKey = (fleetRows: FleetRows, group: FleetGrouping) =>
  ({ depot: fleetRows.depot, model: fleetRows.engineModel, band: fleetRows.band })[group];
