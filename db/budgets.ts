import { and, asc, desc, eq, isNotNull, isNull } from "drizzle-orm";
import type { BudgetDocument } from "../lib/schema/budget-document.ts";
import type { BudgetPart, KeptBudgetInputs } from "../lib/schema/kept-budget.ts";
import { recordActivityWith } from "./activity.ts";
import { chunks } from "./chunks.ts";
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

/** What a list of frozen budgets tells of each. */
export interface FrozenBudget extends Pick<BudgetRow, "id" | "name" | "asOf" | "frozenAt" | "frozenBy"> {
  readonly currency: string;
  readonly fiscalYears: readonly Pick<
    BudgetDocument["fiscalYears"][number],
    "name" | "expected" | "p50" | "p80" | "p95"
  >[];
}

type FrozenFigures = Pick<FrozenBudget, "currency" | "fiscalYears">;

/** Documents are long and of frozen ones never change: each is read once for its figures. */
const frozenFigures = new WeakMap<Store, Map<number, FrozenFigures>>();

/** The frozen budgets that nobody withdrew, newest first. */
export async function frozenBudgets(store: Store): Promise<FrozenBudget[]> {
  const { q, budgets } = store;
  const { id, name, asOf, frozenAt, frozenBy } = budgets;
  const heads = await q
    .select({ id, name, asOf, frozenAt, frozenBy })
    .from(budgets)
    .where(and(isNotNull(budgets.name), isNull(budgets.withdrawnAt)))
    .orderBy(desc(budgets.id));
  const known = frozenFigures.get(store) ?? new Map<number, FrozenFigures>();
  frozenFigures.set(store, known);
  const told: FrozenBudget[] = [];
  for (const head of heads) {
    const figures = known.get(head.id) ?? (await figuresOf(store, head.id));
    if (figures === null) continue;
    known.set(head.id, figures);
    told.push({ ...head, ...figures });
  }
  return told;
}

async function figuresOf({ q, budgets }: Store, id: number): Promise<FrozenFigures | null> {
  const [row] = await q.select({ document: budgets.document }).from(budgets).where(eq(budgets.id, id));
  if (row === undefined) return null;
  const { currency, fiscalYears } = row.document;
  return {
    currency,
    fiscalYears: fiscalYears.map(({ name, expected, p50, p80, p95 }) => ({ name, expected, p50, p80, p95 })),
  };
}

/** Numbers of the plans that budgets were drawn under: today's, and the frozen ones, also those withdrawn. */
export async function plansOfBudgets({ q, budgets }: Store): Promise<number[]> {
  const rows = await q.selectDistinct({ plan: budgets.plan }).from(budgets);
  return rows.map(({ plan }) => plan);
}

/** One budget, today's or a frozen one; null: there is none of this number. */
export async function budgetOf({ q, budgets }: Store, id: number): Promise<BudgetRow | null> {
  const [row] = await q.select().from(budgets).where(eq(budgets.id, id));
  return row ?? null;
}

/** What a budget was drawn from; null: it was not kept. */
export async function budgetInputsOf({ q, budgetInputs }: Store, budget: number): Promise<KeptBudgetInputs | null> {
  const rows = await q
    .select({ part: budgetInputs.part })
    .from(budgetInputs)
    .where(eq(budgetInputs.budget, budget))
    .orderBy(asc(budgetInputs.place));
  const parts = rows.map(({ part }) => part);
  const head = parts.find((part) => "head" in part)?.head;
  return head === undefined ? null : { ...head, units: parts.flatMap((part) => ("units" in part ? part.units : [])) };
}

/** The same without its units; much shorter. */
export async function budgetHeadOf(
  { q, budgetInputs }: Store,
  budget: number,
): Promise<Omit<KeptBudgetInputs, "units"> | null> {
  const [row] = await q
    .select({ part: budgetInputs.part })
    .from(budgetInputs)
    .where(and(eq(budgetInputs.budget, budget), eq(budgetInputs.place, 0)));
  return row !== undefined && "head" in row.part ? row.part.head : null;
}

/** Units in one part: a row of any fleet stays short. */
const unitsOfPart = 50;

function partsOf({ units, ...head }: KeptBudgetInputs): BudgetPart[] {
  return [{ head }, ...[...chunks(units, unitsOfPart)].map((part) => ({ units: part }))];
}

/** Keeps today's budget in place of the last one, and gives its number. Frozen ones stay. */
export function keepBudget(
  store: Store,
  told: Pick<BudgetRow, "plan" | "asOf" | "by" | "basis" | "seed" | "draws"> & {
    readonly at: string;
    readonly document: BudgetDocument;
    readonly inputs: KeptBudgetInputs;
  },
): Promise<number> {
  const { budgets, budgetInputs } = store;
  const { at, inputs, ...row } = told;
  return store.tx(async (q) => {
    await q.delete(budgets).where(isNull(budgets.name));
    const id = await takeIds(store, q, 1);
    await q.insert(budgets).values({ id, madeAt: at, ...row });
    const rows = partsOf(inputs).map((part, place) => ({ budget: id, place, part }));
    await store.bulkInsert(q, budgetInputs, ["budget", "place", "part"], rows);
    return id;
  });
}

/** Why a budget was not frozen. `other`: today's budget is another one than the person saw. */
export type NotFrozen = "name-taken" | "other";

/**
 * Keeps today's budget as it stands under a name, with what it was drawn from; gives the frozen one's number. `seen`: the number of the
 * budget that the person saw.
 */
export function freezeBudget(
  store: Store,
  { seen, name }: { readonly seen: number; readonly name: string },
  { by, at }: { readonly by: string; readonly at: string },
): Promise<number | NotFrozen> {
  const { budgets, budgetInputs } = store;
  return store.tx(async (q) => {
    const standing = await q.select().from(budgets).where(isNull(budgets.withdrawnAt));
    const today = standing.find((row) => row.id === seen && row.name === null);
    if (today === undefined) return "other";
    if (standing.some((row) => row.name?.toLowerCase() === name.toLowerCase())) return "name-taken";
    const id = await takeIds(store, q, 1);
    await q.insert(budgets).values({ ...today, id, name, frozenAt: at, frozenBy: by });
    const parts = await q.select().from(budgetInputs).where(eq(budgetInputs.budget, seen));
    const rows = parts.map(({ place, part }) => ({ budget: id, place, part }));
    await store.bulkInsert(q, budgetInputs, ["budget", "place", "part"], rows);
    await recordActivityWith(store, q, { at, by, action: "budget-frozen", about: name });
    return id;
  });
}

/** Takes a frozen budget off the list; it stays in the store. False: there is none of this number, or it was withdrawn before. */
export function withdrawBudget(
  store: Store,
  id: number,
  { by, at }: { readonly by: string; readonly at: string },
): Promise<boolean> {
  const { budgets } = store;
  return store.tx(async (q) => {
    const [row] = await q
      .select({ name: budgets.name })
      .from(budgets)
      .where(and(eq(budgets.id, id), isNotNull(budgets.name), isNull(budgets.withdrawnAt)));
    if (row === undefined) return false;
    await q.update(budgets).set({ withdrawnAt: at, withdrawnBy: by }).where(eq(budgets.id, id));
    await recordActivityWith(store, q, { at, by, action: "budget-withdrawn", about: row.name });
    return true;
  });
}
