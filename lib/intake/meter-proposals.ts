import { daysBetween } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { MeterUnit } from "../schema/words.ts";
import { meterFactor } from "../units.ts";

/** What a meter that does not fit between its neighbours may have been meant to say. */

export interface DatedMeter {
  readonly date: IsoDate;
  readonly meter: number;
}

export interface MeterGap {
  /** The reading that does not fit. */
  readonly reading: DatedMeter;
  /** The highest reading of an earlier date on the same meter. */
  readonly last: DatedMeter;
  /** The first reading of a later date; null: none. */
  readonly next: DatedMeter | null;
  /** The first reading of the same meter, from which its use is reckoned. */
  readonly first: DatedMeter;
  readonly unit: MeterUnit | null;
}

export type MeterMeant =
  | { readonly kind: "meter-digits"; readonly meter: number }
  | { readonly kind: "meter-unit"; readonly meter: number; readonly from: MeterUnit };

/** A unit may work so many times as hard as it has until now. */
const hardestTimes = 3;
/** Days of work before which nothing is known of how hard a unit works. */
const fewDays = 30;

/** The figures that two neighbouring digits changing places can make, without one that begins with a nought. */
function digitsSwapped(meter: number): readonly number[] {
  const text = String(meter);
  const made = new Set<number>();
  for (let i = 0; i + 1 < text.length; i++) {
    const [a, b] = [text[i] as string, text[i + 1] as string];
    if (a === b || !/\d\d/.test(a + b) || (i === 0 && b === "0")) continue;
    made.add(Number(`${text.slice(0, i)}${b}${a}${text.slice(i + 2)}`));
  }
  return [...made];
}

/** The highest figure that the meter can well have shown on the day; null: nothing tells. */
function mostOf({ reading, last, next, first }: MeterGap): number | null {
  if (next !== null) return next.meter;
  const days = daysBetween(first.date, last.date);
  if (days < fewDays || last.meter <= first.meter) return null;
  const perDay = (last.meter - first.meter) / days;
  return last.meter + hardestTimes * perDay * Math.max(1, daysBetween(last.date, reading.date));
}

/**
 * What is sure enough to be offered: the one figure with two neighbouring digits changed that fits between the readings
 * around it, or the figure read in miles where the unit counts km (or the other way about). Where several figures would
 * fit, or nothing tells how far the meter can have come, nothing is: a wrong figure is worse than a refused row.
 */
export function meterMeant(gap: MeterGap): readonly MeterMeant[] {
  const most = mostOf(gap);
  if (most === null) return [];
  const fits = (meter: number) => meter >= gap.last.meter && meter <= most;
  const meant: MeterMeant[] = [];
  const swapped = digitsSwapped(gap.reading.meter).filter(fits);
  if (swapped.length === 1) meant.push({ kind: "meter-digits", meter: swapped[0] as number });
  const converted = inOtherUnit(gap.reading.meter, gap.unit);
  if (converted !== null && fits(converted.meter)) meant.push({ kind: "meter-unit", ...converted });
  return meant;
}

/** The figure as if it had been read in the other unit of length, in the unit's own; null: there is no other. */
export function inOtherUnit(
  meter: number,
  unit: MeterUnit | null,
): { readonly meter: number; readonly from: MeterUnit } | null {
  if (unit !== "km" && unit !== "mi") return null;
  const from = unit === "km" ? "mi" : "km";
  const factor = meterFactor(from, unit);
  return factor === null ? null : { meter: Math.round(meter * factor), from };
}
