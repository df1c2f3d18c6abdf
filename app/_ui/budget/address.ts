import type { AddressParts } from "../compare/address.ts";
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

const first = (part: AddressParts[string]): string | undefined => (typeof part === "string" ? part : part?.[0]);

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
