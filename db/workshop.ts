import { desc } from "drizzle-orm";
import { type Workshop, workshopSchema } from "../lib/schema/workshop.ts";
import { recordActivityWith } from "./activity.ts";
import type { ChangedMeanwhile } from "./depots.ts";
import { takeIds } from "./meta.ts";
import { remembered } from "./remembered.ts";
import type { Store } from "./store.ts";

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

/** All that was ever told, newest first. */
export async function workshopHistory(
  { q, workshopChanges }: Store,
  { limit }: { readonly limit: number },
): Promise<WorkshopTold[]> {
  const rows = await q.select().from(workshopChanges).orderBy(desc(workshopChanges.id)).limit(limit);
  return rows.map((row) => ({ ...row, workshop: workshopSchema.parse(row.workshop) }));
}

/**
 * From now on this is told; what was before stays in the history. `after`: the id of what the person saw; where somebody
 * told something else since, nothing is written and that is told.
 */
export function changeWorkshop(
  store: Store,
  workshop: Workshop,
  { after, by, at }: { readonly by: string; readonly at: string; readonly after: number },
): Promise<ChangedMeanwhile | null> {
  const { workshopChanges } = store;
  return store.tx(async (q) => {
    const [last] = await q.select().from(workshopChanges).orderBy(desc(workshopChanges.id)).limit(1);
    if (last !== undefined && last.id !== after) return { by: last.by, at: last.at };
    const told = workshopSchema.parse({ ...workshop, depots: {}, pins: [] });
    await q.insert(workshopChanges).values({ id: await takeIds(store, q, 1), workshop: told, by, at });
    await recordActivityWith(store, q, { at, by, action: "workshop-changed", about: null, detail: null });
    return null;
  });
}
