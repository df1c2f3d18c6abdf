import { and, asc, desc, eq, isNotNull, isNull } from "drizzle-orm";
import type { BudgetDocument } from "../lib/schema/budget-document.ts";
import { takeIds } from "./meta.ts";
import { remembered } from "./remembered.ts";
import type { Schema } from "./schema.ts";
import type { Store } from "./store.ts";

/** A budget as it was drawn, today's or a frozen one. */
export type BudgetRow = Schema["budgets"]["$inferSelect"];

/** Today's budget; null: none was drawn yet. */
export const budgetOfToday = remembered("budget", async ({ q, budgets }: Store): Promise<BudgetRow | null> => {
  const [row] = await q.select().from(budgets).where(isNull(budgets.name)).orderBy(desc(budgets.id)).limit(1);
  return row ?? null;
});

/** What today's budget was drawn from, as text; null: there is none. */
export async function budgetBasis({ q, budgets }: Store): Promise<string | null> {
  const newest = q.select({ basis: budgets.basis }).from(budgets).where(isNull(budgets.name));
  const [row] = await newest.orderBy(desc(budgets.id)).limit(1);
  return row?.basis ?? null;
}

/** The frozen budgets that nobody withdrew, newest first. */
export async function frozenBudgets({ q, budgets }: Store): Promise<BudgetRow[]> {
  return await q
    .select()
    .from(budgets)
    .where(and(isNotNull(budgets.name), isNull(budgets.withdrawnAt)))
    .orderBy(desc(budgets.id));
}

/** What a budget was drawn from, part by part. */
export async function budgetInputsOf({ q, budgetInputs }: Store, budget: number): Promise<unknown[]> {
  const rows = await q
    .select({ part: budgetInputs.part })
    .from(budgetInputs)
    .where(eq(budgetInputs.budget, budget))
    .orderBy(asc(budgetInputs.place));
  return rows.map(({ part }) => part);
}

/** Keeps today's budget in place of the last one, and gives its number. Frozen ones stay. */
export function keepBudget(
  store: Store,
  told: Pick<BudgetRow, "plan" | "asOf" | "by" | "basis" | "seed" | "draws"> & {
    readonly at: string;
    readonly document: BudgetDocument;
    readonly parts: readonly unknown[];
  },
): Promise<number> {
  const { budgets, budgetInputs } = store;
  const { at, parts, ...row } = told;
  return store.tx(async (q) => {
    await q.delete(budgets).where(isNull(budgets.name));
    const id = await takeIds(store, q, 1);
    await q.insert(budgets).values({ id, madeAt: at, ...row });
    const rows = parts.map((part, place) => ({ budget: id, place, part }));
    await store.bulkInsert(q, budgetInputs, ["budget", "place", "part"], rows);
    return id;
  });
}
