import { addMonths } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import { quantileSorted } from "../statistics/quantile.ts";
import { fiscalYearOf, monthsBetween } from "./fiscal-year.ts";
import type { BudgetCells, BudgetDraws } from "./types.ts";

/** Money of a span of months: the amounts that are not exceeded with so much probability. */
export interface MoneyRange {
  readonly p50: number;
  readonly p80: number;
  readonly p95: number;
}

/**
 * The expected amounts of all cells in whole minor units, which add up to the rounded whole: each is cut, and what is missing goes
 * to those that lost most (largest remainders).
 */
export function expectedCells({ draws, sums }: Pick<BudgetDraws, "draws" | "sums">): BudgetCells {
  const cells = sums.cells.map((sum) => Math.floor(sum / draws));
  const whole = Math.round(sums.cells.reduce((a, b) => a + b, 0) / draws);
  const missing = whole - cells.reduce((a, b) => a + b, 0);
  const byRemainder = Array.from(sums.cells.keys())
    .filter((i) => (sums.cells[i] as number) % draws !== 0)
    .toSorted((a, b) => ((sums.cells[b] as number) % draws) - ((sums.cells[a] as number) % draws) || a - b);
  for (const i of byRemainder.slice(0, missing)) cells[i] = (cells[i] as number) + 1;
  return { ...sums, cells };
}

/** Quantiles of the simulated total of some months: never sums of the quantiles of its parts. */
export function rangeOf(
  totals: Float64Array,
  { months, from, to }: { readonly months: number; readonly from: number; readonly to: number },
): MoneyRange {
  const draws = totals.length / months;
  const sums = Float64Array.from({ length: draws }, (_, draw) => {
    let sum = 0;
    for (let month = from; month < to; month++) sum += totals[draw * months + month] as number;
    return sum;
  }).toSorted();
  const at = (p: number) => Math.round(quantileSorted(sums, p));
  return {
    p50: at(0.5),
    p80: at(0.8),
    p95: at(0.95),
  };
}

/** A span of a budget's months: from the first, up to but without the last. */
export interface Span {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

/**
 * The months, quarters and fiscal years of a budget, in order. A fiscal year is named after the calendar years that it lies in,
 * its quarters are counted from its first month; the first and last of each may be cut by the budget's ends.
 * @param firstMonth of the fiscal year, 1 to 12
 */
export function spansOf(
  { asOf, months }: { readonly asOf: IsoDate; readonly months: number },
  firstMonth: number,
): Readonly<Record<"months" | "quarters" | "years", readonly Span[]>> {
  const first = `${asOf.slice(0, 8)}01`;
  const all = Array.from({ length: months }, (_, month) => {
    const date = addMonths(first, month);
    const { name: year, from } = fiscalYearOf(date, firstMonth);
    const quarter = `${year} Q${Math.floor(monthsBetween(from, date) / 3) + 1}`;
    return { month, name: date.slice(0, 7), quarter, year };
  });
  const grouped = (of: (one: (typeof all)[number]) => string): Span[] => {
    const spans: { name: string; from: number; to: number }[] = [];
    for (const one of all) {
      const last = spans.at(-1);
      if (last?.name === of(one)) last.to = one.month + 1;
      else spans.push({ name: of(one), from: one.month, to: one.month + 1 });
    }
    return spans;
  };
  return {
    months: grouped(({ name }) => name),
    quarters: grouped(({ quarter }) => quarter),
    years: grouped(({ year }) => year),
  };
}
