import { addMonths } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";

/** A fiscal year of twelve months. */
export interface FiscalYear {
  /** After the calendar years that it lies in: "2026", "2026/27". */
  readonly name: string;
  /** First days of its first month and of the month after its last. */
  readonly from: IsoDate;
  readonly end: IsoDate;
}

/** The fiscal year in which a day lies. @param firstMonth of the fiscal year, 1 to 12 */
export function fiscalYearOf(date: IsoDate, firstMonth: number): FiscalYear {
  const [year, month] = [Number(date.slice(0, 4)), Number(date.slice(5, 7))];
  const begun = month >= firstMonth ? year : year - 1;
  const from = `${String(begun).padStart(4, "0")}-${String(firstMonth).padStart(2, "0")}-01`;
  return {
    name: firstMonth === 1 ? String(begun) : `${begun}/${String((begun + 1) % 100).padStart(2, "0")}`,
    from,
    end: addMonths(from, 12),
  };
}

/** Whole months from that of one day to that of another; negative: it lies before. */
export const monthsBetween = (from: IsoDate, to: IsoDate): number =>
  12 * (Number(to.slice(0, 4)) - Number(from.slice(0, 4))) + Number(to.slice(5, 7)) - Number(from.slice(5, 7));

/** The months of a fiscal year in a budget that begins with the month of `asOf`; none lies in it: `from` is `to`. */
export function monthsIn(
  { from, end }: FiscalYear,
  { asOf, months }: { readonly asOf: IsoDate; readonly months: number },
): { readonly from: number; readonly to: number } {
  const within = (month: number) => Math.min(months, Math.max(0, month));
  return { from: within(monthsBetween(asOf, from)), to: within(monthsBetween(asOf, end)) };
}
