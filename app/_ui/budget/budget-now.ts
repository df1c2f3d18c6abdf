import {
  type BudgetRow,
  budgetHeadOf,
  budgetOf,
  budgetOfToday,
  type FrozenBudget,
  frozenBudgets,
} from "../../../db/budgets.ts";
import type { Store } from "../../../db/store.ts";
import { type Bridged, bridgeOf } from "../../_jobs/bridge-of.ts";
import type { BudgetView } from "./address.ts";
import { noBridgeWords } from "./budget-words.ts";
import { type Amounts, type Head, type YearTold, yearTold } from "./year-told.ts";

/** What the Budget's pages look at. */
export interface BudgetNow {
  readonly row: BudgetRow;
  readonly head: Head;
  readonly told: YearTold;
  /** Not withdrawn, newest first. */
  readonly frozen: readonly FrozenBudget[];
  /** The one that is looked back to; null: none is frozen. */
  readonly was: FrozenNow | null;
}

export interface FrozenNow {
  readonly row: BudgetRow;
  /** null: it has no such year. */
  readonly told: YearTold | null;
}

/** Today's budget of a fiscal year; null: none was drawn yet. */
export async function budgetNow(
  store: Store,
  { year, frozen: chosen }: Pick<BudgetView, "year" | "frozen">,
): Promise<BudgetNow | null> {
  const row = await budgetOfToday(store);
  const head = row === null ? null : await budgetHeadOf(store, row.id);
  if (row === null || head === null) return null;
  const [first] = row.document.fiscalYears;
  const told = yearTold(row.document, head, year ?? "") ?? yearTold(row.document, head, first?.name ?? "");
  if (told === null) return null;
  const frozen = await frozenBudgets(store);
  const lookedBackTo = frozen.find(({ id }) => id === chosen) ?? frozen[0];
  const before = lookedBackTo === undefined ? null : await budgetOf(store, lookedBackTo.id);
  return { row, head, told, frozen, was: before === null ? null : await frozenNow(store, before, told) };
}

/** A fiscal year of a frozen budget, as its page told it when it was frozen. Minor units. */
export interface FrozenYear {
  readonly name: string;
  readonly spent: number;
  /** What was yet to come. */
  readonly drawn: Amounts;
  /** Both together. */
  readonly whole: Amounts;
}

export interface FrozenTold extends FrozenBudget {
  readonly years: readonly FrozenYear[];
}

/** Documents are long and of frozen ones never change: each is read once, and no more of it stays in memory than is told. */
const yearsOfFrozen = new WeakMap<Store, Map<number, readonly FrozenYear[]>>();

/** The frozen budgets with what was spent when each was made: the same kind of figure as today's. */
export async function frozenTold(store: Store, frozen: readonly FrozenBudget[]): Promise<readonly FrozenTold[]> {
  const known = yearsOfFrozen.get(store) ?? new Map<number, readonly FrozenYear[]>();
  yearsOfFrozen.set(store, known);
  const told: FrozenTold[] = [];
  for (const one of frozen) {
    const years = known.get(one.id) ?? (await yearsOf(store, one.id));
    known.set(one.id, years);
    told.push({ ...one, years });
  }
  return told;
}

async function yearsOf(store: Store, id: number): Promise<readonly FrozenYear[]> {
  const [row, head] = await Promise.all([budgetOf(store, id), budgetHeadOf(store, id)]);
  if (row === null || head === null) return [];
  return row.document.fiscalYears.flatMap(({ name }) => {
    const told = yearTold(row.document, head, name);
    if (told === null) return [];
    return [{ name, spent: told.spent.amount, drawn: amountsOf(told.drawn), whole: amountsOf(told.whole) }];
  });
}

/** The amounts without what else a year holds. */
const amountsOf = ({ expected, p50, p80, p95 }: Amounts): Amounts => ({ expected, p50, p80, p95 });

async function frozenNow(store: Store, row: BudgetRow, { drawn, currency }: YearTold): Promise<FrozenNow> {
  const head = await budgetHeadOf(store, row.id);
  const told = head === null || row.document.currency !== currency ? null : yearTold(row.document, head, drawn.name);
  return { row, told };
}

/** The bridge from the frozen budget, or the job that draws it; null: none is frozen. */
export const bridgeNow = (
  store: Store,
  { row, was, told }: BudgetNow,
): { readonly bridge: Bridged } | { readonly job: string } | null =>
  was === null ? null : bridgeOf(store, { was: was.row, now: row, year: told.drawn.name });

/** Why there is no bridge, as a sentence; null: there is one, it is being drawn, or no budget is frozen. */
export function whyNoBridge({ row, was }: BudgetNow, told: ReturnType<typeof bridgeNow>): string | null {
  if (was === null || told === null || !("bridge" in told) || typeof told.bridge !== "string") return null;
  return noBridgeWords(told.bridge, {
    name: was.row.name ?? "",
    was: was.row.document.currency,
    now: row.document.currency,
  });
}
