import type { IsoDate } from "@/lib/schema/facts.ts";
import { dateOfDay, dayNumber } from "../formats.ts";

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
  return day === null ? last.date : dateOfDay(Math.round(day));
}

function between(knots: readonly (readonly [number, number])[], at: number): number | null {
  for (let i = 1; i < knots.length; i++) {
    const [a, b] = [knots[i - 1], knots[i]];
    if (a === undefined || b === undefined || at < a[0] || at > b[0]) continue;
    return b[0] === a[0] ? b[1] : a[1] + ((at - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
  }
  return null;
}

/** First days of years (of quarters on a short axis) between the ends of the domain, at most seven. */
export function dateTicks(pairs: readonly DatedX[], domain: Domain): readonly DatedX[] {
  const from = dateAtX(pairs, domain[0]);
  const to = dateAtX(pairs, domain[1]);
  if (from === null || to === null) return [];
  const [firstYear, lastYear] = [Number(from.slice(0, 4)), Number(to.slice(0, 4))];
  const months = lastYear - firstYear < 2 ? ["01", "04", "07", "10"] : ["01"];
  const starts: DatedX[] = [];
  for (let year = firstYear; year <= lastYear; year++) {
    for (const month of months) {
      const date = `${year}-${month}-01`;
      const x = date < from || date > to ? null : xAtDate(pairs, date);
      if (x !== null && x >= domain[0] && x <= domain[1]) starts.push({ x, date });
    }
  }
  const every = Math.ceil(starts.length / 7);
  return starts.filter((_, i) => i % every === 0);
}
