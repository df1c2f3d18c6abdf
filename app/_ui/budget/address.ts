import type { AddressParts } from "../compare/address.ts";
import type { Understood } from "../not-understood.tsx";
import { type Grouping, groupings } from "./where.ts";
import { type SpanKind, spanKinds } from "./year-told.ts";

/** How the Budget page may be asked for. */
export interface BudgetView {
  /** Name of a fiscal year; null: the one that runs. */
  readonly year: string | null;
  readonly span: SpanKind;
  readonly by: Grouping;
  /** Number of the frozen budget that is looked back to; null: the newest. */
  readonly frozen: number | null;
}

/** What is told once; of two that contradict each other neither is asked for. */
const first = (part: AddressParts[string]): string | undefined =>
  typeof part === "string" ? part : part?.length === 1 ? part[0] : undefined;

/** What of the Budget's address is understood: years and frozen budgets are those that there are. */
export const understoodOfBudget = (
  years: readonly { readonly name: string }[],
  frozen: readonly { readonly id: number }[],
): Understood => ({
  year: (value) => years.some(({ name }) => name === value),
  span: (value) => spanKinds.some((kind) => kind === value),
  by: (value) => groupings.some((grouping) => grouping === value),
  frozen: (value) => frozen.some(({ id }) => String(id) === value),
});

export function readBudgetAddress(parts: AddressParts): BudgetView {
  const [span, by, frozen] = [first(parts["span"]), first(parts["by"]), Number(first(parts["frozen"]) || Number.NaN)];
  return {
    year: first(parts["year"]) ?? null,
    span: spanKinds.find((word) => word === span) ?? "month",
    by: groupings.find((word) => word === by) ?? "depot",
    frozen: Number.isSafeInteger(frozen) ? frozen : null,
  };
}

/** What is usual is left out of the address. */
export function budgetAddress({ year, span, by, frozen }: BudgetView): string {
  const parts = new URLSearchParams();
  if (year !== null) parts.set("year", year);
  if (span !== "month") parts.set("span", span);
  if (by !== "depot") parts.set("by", by);
  if (frozen !== null) parts.set("frozen", String(frozen));
  const query = parts.toString();
  return query === "" ? "/budget" : `/budget?${query}`;
}

export const budgetTables = ["spans", "units", "groups", "spent", "bridge", "frozen", "scenarios", "moves"] as const;
export type BudgetTable = (typeof budgetTables)[number];

export function budgetFileAddress(table: BudgetTable, { year, by, frozen }: Partial<BudgetView> = {}): string {
  const parts = new URLSearchParams({ table });
  if (year != null) parts.set("year", year);
  if (by !== undefined) parts.set("by", by);
  if (frozen != null) parts.set("frozen", String(frozen));
  return `/budget.csv?${parts.toString()}`;
}

export const whatIfAddress = "/budget/what-if";
export const reportAddress = "/budget/report";
