import { desc, eq } from "drizzle-orm";
import type { DepotSetup } from "../lib/schema/depot.ts";
import { growingPrices, type Workshop, workshopSchema } from "../lib/schema/workshop.ts";
import { recordActivityWith } from "./activity.ts";
import { type ChangedMeanwhile, changeDepotWith, depotChangedSince } from "./depots.ts";
import { takeIds } from "./meta.ts";
import { remembered } from "./remembered.ts";
import type { Q, Store } from "./store.ts";

/**
 * Prices and workshops as people told them last: without depots, which tell their own capacity, and without pins, which
 * are choices of the plan. `id` 0: nobody told anything, the defaults hold.
 */
export interface WorkshopTold {
  readonly id: number;
  readonly by: string | null;
  readonly at: string | null;
  readonly workshop: Workshop;
}

export const workshopTold = remembered("workshop", async ({ q, workshopChanges }: Store): Promise<WorkshopTold> => {
  const [row] = await q.select().from(workshopChanges).orderBy(desc(workshopChanges.id)).limit(1);
  if (row === undefined) return { id: 0, by: null, at: null, workshop: workshopSchema.parse({}) };
  // What a later version of the program asks for beside what was kept has its default.
  return { ...row, workshop: workshopSchema.parse(row.workshop) };
});

/** When the prices in force were told: by the first of the changes since which they are the same; null: nobody told anything. */
export const pricesToldAt = remembered("prices-told", async ({ q, workshopChanges }: Store): Promise<string | null> => {
  const rows = await q.select().from(workshopChanges).orderBy(desc(workshopChanges.id));
  const prices = rows.map(({ workshop }) => JSON.stringify(growingPrices(workshopSchema.parse(workshop))));
  const other = prices.findIndex((of) => of !== prices[0]);
  return rows.at(other < 0 ? -1 : other - 1)?.at ?? null;
});

/** All that was ever told, newest first. */
export async function workshopHistory(
  { q, workshopChanges }: Store,
  { limit }: { readonly limit: number },
): Promise<WorkshopTold[]> {
  const rows = await q.select().from(workshopChanges).orderBy(desc(workshopChanges.id)).limit(limit);
  return rows.map((row) => ({ ...row, workshop: workshopSchema.parse(row.workshop) }));
}

/** What was told by one change; null: there is none of that id. Of 0: the defaults, which held before anybody told anything. */
export async function workshopToldBy({ q, workshopChanges }: Store, id: number): Promise<Workshop | null> {
  if (id === 0) return workshopSchema.parse({});
  const [row] = await q.select().from(workshopChanges).where(eq(workshopChanges.id, id));
  return row === undefined ? null : workshopSchema.parse(row.workshop);
}

/** What is told of a depot together with prices; `after`: the change of it that the person saw last, null: there was none. */
export interface DepotTold {
  readonly depot: string;
  readonly setup: DepotSetup;
  readonly after: number | null;
}

/**
 * From now on this is told, of prices and of depots; what was before stays in the history. `after`: the id of what the
 * person saw; where somebody told something else since, of prices or of one of the depots, nothing is written and that is
 * told.
 */
export function changeWorkshop(
  store: Store,
  workshop: Workshop,
  {
    after,
    by,
    at,
    depots = [],
  }: { readonly by: string; readonly at: string; readonly after: number; readonly depots?: readonly DepotTold[] },
): Promise<ChangedMeanwhile | null> {
  const { workshopChanges } = store;
  return store.tx(async (q) => {
    const [last] = await q.select().from(workshopChanges).orderBy(desc(workshopChanges.id)).limit(1);
    if (last !== undefined && last.id !== after) return { by: last.by, at: last.at };
    for (const { depot, after: seen } of depots) {
      const meanwhile = await depotChangedSince(store, q, depot, seen);
      if (meanwhile !== null) return meanwhile;
    }
    await changeWorkshopWith(store, q, workshop, { by, at });
    for (const { depot, setup } of depots) await changeDepotWith(store, q, depot, setup, { by, at });
    return null;
  });
}

/** The same within a transaction of the caller's, whatever was told before; of prices alone. */
export async function changeWorkshopWith(
  store: Store,
  q: Q,
  workshop: Workshop,
  { by, at }: { readonly by: string; readonly at: string },
): Promise<void> {
  const told = workshopSchema.parse({ ...workshop, depots: {}, pins: [] });
  await q.insert(store.workshopChanges).values({ id: await takeIds(store, q, 1), workshop: told, by, at });
  await recordActivityWith(store, q, { at, by, action: "workshop-changed", about: null, detail: null });
}
