import { addMonths, dayNumber } from "@/lib/calendar.ts";
import type { IsoDate } from "@/lib/schema/facts.ts";
import type { UseCourse } from "@/lib/schema/report.ts";
import { roundStep } from "./axis.ts";

/** A step of use a week, placed in per cent of the drawing's width. `standing`: the meter did not move. */
export interface UseStep {
  readonly from: IsoDate;
  readonly to: IsoDate;
  readonly left: number;
  readonly width: number;
  readonly perWeek: number;
  readonly standing: boolean;
}

export interface UseDrawing {
  readonly steps: readonly UseStep[];
  /** Where today lies, in per cent of the width. */
  readonly today: number;
  /** Use a week ahead, from today to the right edge; null: out of service. */
  readonly ahead: { readonly p10: number; readonly p50: number; readonly p90: number } | null;
  readonly resets: readonly (UseCourse["resets"][number] & { readonly at: number })[];
  /** First days of years. */
  readonly years: readonly { readonly year: string; readonly at: number }[];
  /** Round values from 0; the last is the top edge. Canonical, round as shown. */
  readonly ticks: readonly number[];
}

const monthsAhead = 12;
const nearToday = 9;

/** The use of a unit as a drawing of steps; null: fewer than two readings. `factor`: shown = canonical × factor. */
export function drawingOfUse(use: UseCourse, asOf: IsoDate, factor: number): UseDrawing | null {
  const [first] = use.spans;
  if (first === undefined) return null;
  const [start, end] = [dayNumber(first.from), dayNumber(addMonths(asOf, monthsAhead))];
  const place = (date: IsoDate) => (100 * (dayNumber(date) - start)) / (end - start);
  const steps = use.spans.map(({ from, to, used }) => ({
    from,
    to,
    left: place(from),
    width: place(to) - place(from),
    perWeek: (7 * used) / Math.max(1, dayNumber(to) - dayNumber(from)),
    standing: used === 0,
  }));
  const week = (perDay: number) => 7 * perDay;
  const ahead =
    use.ahead === null ? null : { p10: week(use.ahead.p10), p50: week(use.ahead.p50), p90: week(use.ahead.p90) };
  const highest = Math.max(ahead?.p90 ?? 0, ...steps.map((s) => s.perWeek), 1e-6) * factor;
  const step = roundStep(highest, 3);
  const ticks = Array.from({ length: Math.ceil(highest / step) + 1 }, (_, i) => (i * step) / factor);
  const years: { year: string; at: number }[] = [];
  for (let year = Number(first.from.slice(0, 4)) + 1; ; year++) {
    const at = place(`${year}-01-01`);
    if (at > 100) break;
    years.push({ year: String(year), at });
  }
  const every = Math.ceil(years.length / 8);
  return {
    steps,
    today: place(asOf),
    ahead,
    resets: use.resets.map((reset) => ({ ...reset, at: place(reset.date) })),
    // No year stands under the word "today".
    years: years.filter(({ at }, i) => i % every === 0 && Math.abs(at - place(asOf)) > nearToday),
    ticks,
  };
}
