import { desc, eq, inArray } from "drizzle-orm";
import { type KeptPlan, planFormat } from "../lib/schema/kept-plan.ts";
import { recordActivityWith } from "./activity.ts";
import { chunks } from "./chunks.ts";
import { takeIds } from "./meta.ts";
import { remembered } from "./remembered.ts";
import type { Schema } from "./schema.ts";
import type { Store } from "./store.ts";

/** A plan as it was made, with what it was made from. */
export type PlanRow = Schema["plans"]["$inferSelect"];

/** What a list of plans tells of each. */
export type PlanHead = Pick<PlanRow, "id" | "asOf" | "madeAt" | "by">;

/** The plan in force; null: none was made yet, or none that this program can read. */
export const planInForce = remembered("plan", async (store: Store): Promise<PlanRow | null> => {
  const { q, plans } = store;
  const [row] = await q.select().from(plans).orderBy(desc(plans.id)).limit(1);
  return row !== undefined && row.plan.format === planFormat ? row : null;
});

/** One plan of the history; null: none of this number, or none that this program can read. */
export async function planOf({ q, plans }: Store, id: number): Promise<PlanRow | null> {
  const [row] = await q.select().from(plans).where(eq(plans.id, id));
  return row !== undefined && row.plan.format === planFormat ? row : null;
}

/** The plans that were made, newest first: the last so many, or all. */
export async function planHeads(
  { q, plans }: Store,
  { limit = null }: { readonly limit?: number | null } = {},
): Promise<PlanHead[]> {
  const { id, asOf, madeAt, by } = plans;
  const heads = q.select({ id, asOf, madeAt, by }).from(plans).orderBy(desc(id));
  return await (limit === null ? heads : heads.limit(limit));
}

/** Removes plans with their bookings. */
export function removePlans(store: Store, ids: readonly number[]): Promise<void> {
  const { plans } = store;
  return store.tx(async (q) => {
    for (const part of chunks(ids, idsAtOnce)) await q.delete(plans).where(inArray(plans.id, [...part]));
  });
}

/** Far below what a statement may bind. */
const idsAtOnce = 200;

/** The number of the plan in force, whether this program can read it or not; null: none was made yet. */
export async function newestPlan({ q, plans }: Store): Promise<number | null> {
  const [row] = await q.select({ id: plans.id }).from(plans).orderBy(desc(plans.id)).limit(1);
  return row?.id ?? null;
}

/**
 * Puts a plan in force, and gives its number; null: it is not kept, for another one than the one seen as its making began is in
 * force by now.
 */
export function keepPlan(
  store: Store,
  {
    plan,
    workshop,
    basis,
    asOf,
    by,
    at,
    seen,
  }: Pick<PlanRow, "workshop" | "basis" | "asOf" | "by"> & {
    readonly plan: KeptPlan;
    readonly at: string;
    /** What `newestPlan` gave then. */
    readonly seen: number | null;
  },
): Promise<number | null> {
  const { plans, planBookings } = store;
  return store.tx(async (q) => {
    const [newest] = await q.select({ id: plans.id }).from(plans).orderBy(desc(plans.id)).limit(1);
    if ((newest?.id ?? null) !== seen) return null;
    const id = await takeIds(store, q, 1);
    await q.insert(plans).values({ id, asOf, madeAt: at, by, basis, workshop, plan });
    const rows = plan.bookings.map(({ unit, scope, start }, place) => ({ plan: id, place, unit, scope, start, asOf }));
    if (rows[0]) await store.bulkInsert(q, planBookings, Object.keys(rows[0]), rows);
    const detail = { bookings: rows.length };
    await recordActivityWith(store, q, { at, by, action: "plan-made", about: String(id), detail });
    return id;
  });
}

/** A booking of some plan, by which its repair is found again. */
export type BookingRow = Schema["planBookings"]["$inferSelect"];

/** What any plan ever had booked for some units, the newest plan first. */
export async function bookingsOf({ q, planBookings }: Store, units: readonly string[]): Promise<BookingRow[]> {
  if (units.length === 0) return [];
  return await q
    .select()
    .from(planBookings)
    .where(inArray(planBookings.unit, [...units]))
    .orderBy(desc(planBookings.plan));
}
