import { and, asc, desc, eq, inArray, isNull, max } from "drizzle-orm";
import { type DepotPeriod, type DepotSetup, depotPeriodSchema } from "../lib/schema/depot.ts";
import { recordActivityWith } from "./activity.ts";
import { takeIds } from "./meta.ts";
import { remembered } from "./remembered.ts";
import type { Schema } from "./schema.ts";
import type { Q, Store } from "./store.ts";

type Columns = Schema["depotPeriods"]["$inferSelect"];
type ChangeColumns = Schema["depotChanges"]["$inferSelect"];

/** A period with the depot it is of, who gave it and when. */
export type DepotPeriodRow = DepotPeriod & Pick<Columns, "id" | "depot" | "by" | "at" | "endedAt">;

/** One change of what people tell of a depot: who, when, and all that was told from then on. */
export type DepotChange = Pick<ChangeColumns, "id" | "by" | "at"> & { readonly setup: DepotSetup };

/** Somebody else was quicker; nothing was written. */
export interface ChangedMeanwhile {
  readonly by: string;
  readonly at: string;
}

/** Peak and closed periods in force, by depot, in the order in which they were given. */
export const depotPeriods = remembered(
  "depot-periods",
  async ({ q, depotPeriods: periods }: Store): Promise<DepotPeriodRow[]> => {
    const rows = await q
      .select()
      .from(periods)
      .where(isNull(periods.endedAt))
      .orderBy(asc(periods.depot), asc(periods.id));
    return rows.map(toPeriod);
  },
);

function toPeriod({ id, depot, by, at, endedAt, endedBy, ...columns }: Columns): DepotPeriodRow {
  return { ...depotPeriodSchema.parse(columns), id, depot, by, at, endedAt };
}

/** The last change of each depot that anybody told anything of, by depot. */
export async function depotSetups(store: Store): Promise<ReadonlyMap<string, DepotChange>> {
  const { q, depotChanges: changes } = store;
  const newest = q
    .select({ id: max(changes.id) })
    .from(changes)
    .groupBy(changes.depot);
  const rows = await q.select().from(changes).where(inArray(changes.id, newest)).orderBy(asc(changes.depot));
  const periods = await depotPeriods(store);
  return new Map(
    rows.map((row) => [
      row.depot,
      changeOf(
        row,
        periods.filter(({ depot }) => depot === row.depot),
      ),
    ]),
  );
}

/** Stands for what is told of all depots: another change gives another. 0: nobody told anything. */
export async function depotsVersion({ q, depotChanges }: Store): Promise<number> {
  const [row] = await q.select({ id: max(depotChanges.id) }).from(depotChanges);
  return row?.id ?? 0;
}

/** What people told of one depot, change by change, newest first. */
export async function depotHistory(store: Store, depot: string): Promise<DepotChange[]> {
  const { q, depotChanges: changes, depotPeriods: periods } = store;
  const rows = await q.select().from(changes).where(eq(changes.depot, depot)).orderBy(desc(changes.id));
  const ever = await q.select().from(periods).where(eq(periods.depot, depot)).orderBy(asc(periods.id));
  return rows.map((row) => {
    const then = ever.filter(({ id, endedBy }) => id < row.id && (endedBy === null || endedBy > row.id));
    return changeOf(row, then.map(toPeriod));
  });
}

function changeOf(row: ChangeColumns, periods: readonly DepotPeriodRow[]): DepotChange {
  const { id, by, at, depot: _depot, ...told } = row;
  return { id, by, at, setup: { ...told, periods: periods.map(ofPeople) } };
}

/** A period as it was given. */
function ofPeople({ id, depot, by, at, endedAt, ...period }: DepotPeriodRow): DepotPeriod {
  return period;
}

/**
 * From now on exactly this is told of the depot; what was in force before stays in the history. `after`: the change that
 * the person saw last, null where there was none; where another one came since, nothing is written and that is told.
 */
export function changeDepot(
  store: Store,
  depot: string,
  setup: DepotSetup,
  told: { readonly by: string; readonly at: string; readonly after: number | null },
): Promise<ChangedMeanwhile | null> {
  return store.tx(async (q) => {
    const meanwhile = await depotChangedSince(store, q, depot, told.after);
    if (meanwhile === null) await changeDepotWith(store, q, depot, setup, told);
    return meanwhile;
  });
}

/** Who told something of a depot since the change that the person saw last; null: nobody did. */
export async function depotChangedSince(
  { depotChanges: changes }: Store,
  q: Q,
  depot: string,
  after: number | null,
): Promise<ChangedMeanwhile | null> {
  const [last] = await q.select().from(changes).where(eq(changes.depot, depot)).orderBy(desc(changes.id)).limit(1);
  return last === undefined || last.id === after ? null : { by: last.by, at: last.at };
}

/** The same within a transaction of the caller's, whatever was told before. */
export async function changeDepotWith(
  store: Store,
  q: Q,
  depot: string,
  { periods: given, ...capacity }: DepotSetup,
  { by, at }: { readonly by: string; readonly at: string },
): Promise<void> {
  const { depotPeriods: periods, depotChanges: changes } = store;
  let id = await takeIds(store, q, given.length + 1);
  const change = id + given.length;
  await q
    .update(periods)
    .set({ endedAt: at, endedBy: change })
    .where(and(eq(periods.depot, depot), isNull(periods.endedAt)));
  const blank = { firstWeek: null, lastWeek: null, firstDate: null, lastDate: null };
  const rows = given.map((period) => ({ ...blank, ...period, id: id++, depot, by, at }));
  if (rows[0]) await store.bulkInsert(q, periods, Object.keys(rows[0]), rows);
  await q.insert(changes).values({ ...capacity, id: change, depot, by, at });
  const detail = { ...capacity, periods: given.length };
  await recordActivityWith(store, q, { at, by, action: "depot-changed", about: depot, detail });
}

/** Whether a change says nothing: it took back all that was told before. */
export const saysNothing = ({ setup: { periods, ...capacity } }: DepotChange): boolean =>
  periods.length === 0 && Object.values(capacity).every((value) => value === null || value === false);
