import { type Actuals, actualsOf } from "../../../lib/budget/actuals.ts";
import { type FiscalYear, fiscalYearOf } from "../../../lib/budget/fiscal-year.ts";
import { addMonths } from "../../../lib/calendar.ts";
import type { BudgetDocument } from "../../../lib/schema/budget-document.ts";
import type { KeptBudgetInputs } from "../../../lib/schema/kept-budget.ts";

/** A budget as its page tells it: what was spent in a fiscal year, and what is drawn of the rest of it. Minor units. */

export type YearDrawn = BudgetDocument["fiscalYears"][number];
export type Head = Omit<KeptBudgetInputs, "units">;

export interface Amounts {
  readonly expected: number;
  readonly p50: number;
  readonly p80: number;
  readonly p95: number;
}

export interface YearTold {
  readonly fiscal: FiscalYear;
  readonly currency: string;
  readonly asOf: string;
  /** What was recorded from the year's first day to the as-of date. */
  readonly spent: Actuals;
  /** What is yet to come. */
  readonly drawn: YearDrawn;
  /** Both together. */
  readonly whole: Amounts;
  /** What the plan has booked in it. */
  readonly booked: readonly Booking[];
}

type Booking = Head["bookings"][number];

/** A fiscal year of a budget; null: it has none of this name. */
export function yearTold(document: BudgetDocument, head: Head, name: string): YearTold | null {
  const drawn = document.fiscalYears.find((year) => year.name === name);
  if (drawn === undefined) return null;
  const { asOf, currency } = document;
  const fiscal = fiscalYearOf(`${drawn.firstMonth}-01`, head.workshop.fiscalYearStartMonth);
  const spent = actualsOf(head.repairs, { from: fiscal.from, to: asOf, workshop: head.workshop });
  const begins = `${drawn.firstMonth}-01`;
  // What was to begin before today is still to be made: now.
  const booked = head.bookings.filter(({ start }) => start < fiscal.end && (start >= begins || asOf >= begins));
  return { fiscal, currency, asOf, spent, drawn, whole: plus(spent.amount, drawn), booked };
}

const plus = (spent: number, { expected, p50, p80, p95 }: Amounts): Amounts => ({
  expected: spent + expected,
  p50: spent + p50,
  p80: spent + p80,
  p95: spent + p95,
});

/** The months of a fiscal year that a budget ends in, "2029-07"; null: it reaches the year's end. What lies before was spent by then. */
export function partOfYear({
  fiscal,
  drawn,
}: Pick<YearTold, "fiscal"> & { readonly drawn: Pick<YearDrawn, "firstMonth" | "months"> }): {
  readonly first: string;
  readonly last: string;
} | null {
  const end = addMonths(`${drawn.firstMonth}-01`, drawn.months);
  return end >= fiscal.end ? null : { first: fiscal.from.slice(0, 7), last: addMonths(end, -1).slice(0, 7) };
}

export const spanKinds = ["month", "quarter", "year"] as const;
export type SpanKind = (typeof spanKinds)[number];

/** One bar: what was spent stands below what is yet to come. */
export interface Bar {
  readonly name: string;
  /** First day of its first month. */
  readonly from: string;
  readonly spent: number;
  /** With what was spent. */
  readonly whole: Amounts;
}

/** The months of the year told; or all quarters or years of the budget, and the quarters of its first year that have gone by. */
export function barsOf(document: BudgetDocument, { fiscal, spent }: YearTold, kind: SpanKind): readonly Bar[] {
  const none: Amounts = { expected: 0, p50: 0, p80: 0, p95: 0 };
  const spentIn = (from: string, end: string) =>
    spent.months
      .filter(({ month }) => month >= from.slice(0, 7) && month < end.slice(0, 7))
      .reduce((sum, { amount }) => sum + amount, 0);
  if (kind === "month") {
    const drawn = new Map(document.months.map((month) => [month.name, month]));
    return Array.from({ length: 12 }, (_, month): Bar => {
      const from = addMonths(fiscal.from, month);
      const amount = spentIn(from, addMonths(from, 1));
      return { name: from.slice(0, 7), from, spent: amount, whole: plus(amount, drawn.get(from.slice(0, 7)) ?? none) };
    });
  }
  const spans = kind === "quarter" ? document.quarters : document.fiscalYears;
  const bars = spans.map((span): Bar => {
    const first = `${span.firstMonth}-01`;
    const end = addMonths(first, span.months);
    // The first span may have begun before the budget did.
    const from = span === spans[0] ? startOf(fiscal, first, kind) : first;
    const amount = spentIn(from, end);
    return { name: span.name, from, spent: amount, whole: plus(amount, span) };
  });
  if (kind === "year") return bars;
  const gone = quartersBefore(fiscal, bars[0]?.from ?? fiscal.from).map(({ name, from }): Bar => {
    const amount = spentIn(from, addMonths(from, 3));
    return { name, from, spent: amount, whole: plus(amount, none) };
  });
  return [...gone, ...bars];
}

/** The quarters of a fiscal year that begin before a day in it; none where the day lies before the year or after it. */
function quartersBefore({ name, from, end }: FiscalYear, day: string): readonly Pick<Bar, "name" | "from">[] {
  if (day >= end) return [];
  return [0, 1, 2, 3]
    .map((quarter) => ({ name: `${name} Q${quarter + 1}`, from: addMonths(from, 3 * quarter) }))
    .filter((quarter) => quarter.from < day);
}

/** A month, quarter or fiscal year with what was spent in it and what is drawn of it. */
export interface SpanTold extends Bar {
  readonly kind: SpanKind;
  /** That lie in the budget; 0: it has gone by. */
  readonly months: number;
  /** Yet to come. */
  readonly drawn: Amounts;
}

/** All spans of a budget, from the beginning of the fiscal year in which it begins; months and quarters gone by have nothing to come. */
export function spansTold(document: BudgetDocument, head: Head): readonly SpanTold[] {
  const told = yearTold(document, head, document.fiscalYears[0]?.name ?? "");
  if (told === null) return [];
  const first = document.months[0]?.name ?? "";
  const spans = { month: document.months, quarter: document.quarters, year: document.fiscalYears };
  const later = document.months.filter(({ name }) => `${name}-01` >= told.fiscal.end);
  const months = [
    ...barsOf(document, told, "month").filter(
      ({ name }) => name < first || document.months.some((one) => one.name === name),
    ),
    ...later.map((month): Bar => ({ name: month.name, from: `${month.name}-01`, spent: 0, whole: month })),
  ];
  const bars = (kind: SpanKind) => (kind === "month" ? months : barsOf(document, told, kind));
  return spanKinds.flatMap((kind) =>
    bars(kind).map((bar): SpanTold => {
      const { spent, whole } = bar;
      const drawn = plus(-spent, whole);
      return { ...bar, kind, months: spans[kind].find(({ name }) => name === bar.name)?.months ?? 0, drawn };
    }),
  );
}

function startOf({ from }: FiscalYear, first: string, kind: "quarter" | "year"): string {
  if (kind === "year" || first < from) return from;
  let start = from;
  while (addMonths(start, 3) <= first) start = addMonths(start, 3);
  return start;
}

/** One point of the running sum, at the end of a month of the year: 1 to 12. */
export interface SumPoint {
  readonly month: number;
  readonly p50: number;
  readonly p80: number;
}

export interface RunningSum {
  /** From nought at the year's first day. */
  readonly spent: readonly { readonly month: number; readonly amount: number }[];
  readonly drawn: readonly SumPoint[];
}

/** How the year's money adds up, month by month; the month of the as-of date is drawn for its rest. */
export function runningSum({ fiscal, asOf, spent, drawn }: YearTold): RunningSum {
  const amounts = new Map(spent.months.map(({ month, amount }) => [month, amount]));
  const points = [{ month: 0, amount: 0 }];
  let sum = 0;
  let month = 0;
  for (let from = fiscal.from; from <= asOf && month < 12; from = addMonths(fiscal.from, ++month)) {
    sum += amounts.get(from.slice(0, 7)) ?? 0;
    const share = from.slice(0, 7) === asOf.slice(0, 7) ? Number(asOf.slice(8)) / 31 : 1;
    points.push({ month: month + share, amount: sum });
  }
  const at = points.at(-1) ?? { month: 0, amount: 0 };
  return {
    spent: points,
    drawn: [
      { month: at.month, p50: sum, p80: sum },
      ...drawn.cumulative.map((one) => ({
        month: monthIn(fiscal, one.month) + 1,
        p50: sum + one.p50,
        p80: sum + one.p80,
      })),
    ],
  };
}

const monthIn = ({ from }: FiscalYear, month: string): number =>
  12 * (Number(month.slice(0, 4)) - Number(from.slice(0, 4))) + Number(month.slice(5, 7)) - Number(from.slice(5, 7));
