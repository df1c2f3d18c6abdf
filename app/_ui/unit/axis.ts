import { addDays, dayNumber } from "@/lib/calendar.ts";
import type { IsoDate } from "@/lib/schema/facts.ts";

/** Axes of the trend chart: round steps, ticks that keep clear of each other, and dates laid along the meter. */

export type Domain = readonly [number, number];

/** The round step (1, 2, 2.5 or 5 times a power of ten; never 2.5 itself) that cuts `span` into about `parts`. */
export function roundStep(span: number, parts: number): number {
  const raw = span / parts;
  const power = 10 ** Math.floor(Math.log10(raw));
  const lead = raw / power;
  return power * (lead <= 1 ? 1 : lead <= 2 ? 2 : lead <= 2.5 && power >= 10 ? 2.5 : lead <= 5 ? 5 : 10);
}

/** Multiples of a round step inside the domain. */
export function roundTicks([low, high]: Domain, parts: number): number[] {
  const step = roundStep(high - low, parts);
  const first = Math.ceil(low / step);
  const count = Math.floor(high / step) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, i) => Number(((first + i) * step).toPrecision(12)));
}

/** The decimals that tell ticks apart. */
export function tickDigits(ticks: readonly number[]): number {
  const step = Math.abs((ticks[1] ?? 1) - (ticks[0] ?? 0));
  return step > 0 && step < 1 ? Math.ceil(-Math.log10(step) - 1e-9) : 0;
}

/** Wanted ticks first; the others only where they stand at least `gapShare` of the domain away from all taken. */
export function clearTicks(domain: Domain, wanted: readonly number[], others: readonly number[], gapShare: number) {
  const gap = (domain[1] - domain[0]) * gapShare;
  const taken: number[] = [];
  for (const tick of [...wanted, ...others]) {
    const inside = tick >= domain[0] && tick <= domain[1];
    if (inside && taken.every((t) => Math.abs(t - tick) >= gap)) taken.push(tick);
  }
  return taken.sort((a, b) => a - b);
}

interface DatedX {
  readonly x: number;
  readonly date: IsoDate;
}

/** Place of a date on the axis, straight between the known pairs; null outside them. */
export function xAtDate(pairs: readonly DatedX[], date: IsoDate): number | null {
  const day = dayNumber(date);
  return between(
    pairs.map((p) => [dayNumber(p.date), p.x]),
    day,
  );
}

/** Date at a place on the axis; before the first pair and after the last, that pair's date. Null without pairs. */
export function dateAtX(pairs: readonly DatedX[], x: number): IsoDate | null {
  const first = pairs[0];
  const last = pairs[pairs.length - 1];
  if (first === undefined || last === undefined) return null;
  if (x <= first.x) return first.date;
  const day = between(
    pairs.map((p) => [p.x, dayNumber(p.date)]),
    x,
  );
  return day === null ? last.date : addDays("1970-01-01", Math.round(day));
}

function between(knots: readonly (readonly [number, number])[], at: number): number | null {
  for (let i = 1; i < knots.length; i++) {
    const [a, b] = [knots[i - 1], knots[i]];
    if (a === undefined || b === undefined || at < a[0] || at > b[0]) continue;
    return b[0] === a[0] ? b[1] : a[1] + ((at - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
  }
  return null;
}

/** A date under the upper axis: told by its month where all are first days of months, else in full. */
export interface DateTick extends DatedX {
  readonly by: "month" | "day";
}

const atMost = 7;

/**
 * First days of years; of quarters or months on a shorter axis, and single days on one of under ten weeks. At most
 * seven, between the ends of the domain.
 */
export function dateTicks(pairs: readonly DatedX[], domain: Domain): readonly DateTick[] {
  const from = dateAtX(pairs, domain[0]);
  const to = dateAtX(pairs, domain[1]);
  if (from === null || to === null) return [];
  const days = dayNumber(to) - dayNumber(from);
  const by = days < 70 ? "day" : "month";
  const dates = by === "day" ? everyDay(from, days) : monthStarts(from, to);
  const starts = dates.flatMap((date): DateTick[] => {
    const x = date < from || date > to ? null : xAtDate(pairs, date);
    return x !== null && x >= domain[0] && x <= domain[1] ? [{ x, date, by }] : [];
  });
  const every = Math.ceil(starts.length / atMost);
  return starts.filter((_, i) => i % every === 0);
}

function monthStarts(from: IsoDate, to: IsoDate): IsoDate[] {
  const [firstYear, lastYear] = [Number(from.slice(0, 4)), Number(to.slice(0, 4))];
  const apart = lastYear - firstYear >= 2 ? 12 : dayNumber(to) - dayNumber(from) > 210 ? 3 : 1;
  const starts: IsoDate[] = [];
  for (let year = firstYear; year <= lastYear; year++) {
    for (let month = 1; month <= 12; month += apart) starts.push(`${year}-${String(month).padStart(2, "0")}-01`);
  }
  return starts;
}

const everyDay = (from: IsoDate, days: number): IsoDate[] =>
  Array.from({ length: days + 1 }, (_, i) => addDays(from, i));
