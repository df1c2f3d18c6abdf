import { daysBetween } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import { dateWords, numberWords } from "../wording.ts";
import { compareText } from "./order.ts";
import type { MeterPoint } from "./types.ts";

/** What one fact says of a unit's meter. */
export interface MeterObservation {
  readonly date: IsoDate;
  readonly meter: number;
  /** True: the first reading of a new meter. */
  readonly reset: boolean;
}

/** A unit's use since its first meter, continuous over new meters. */
export interface ContinuousMeter {
  /** One for each observation, in the order given; null: it contradicts the others and was not used. */
  readonly cumulative: readonly (number | null)[];
  /** Ascending by date, one a date (the last reading of that day). */
  readonly points: readonly MeterPoint[];
  /** As `points`: use at the first reading of that day. */
  readonly dayStarts: readonly number[];
  /** What to add to the meter now fitted to get `cumulative`. */
  readonly offset: number;
  readonly warnings: readonly string[];
  /** Meters fitted one after the other, ascending; at least one. */
  readonly meters: readonly FittedMeter[];
}

interface FittedMeter {
  readonly fromDate: IsoDate;
  readonly offset: number;
  readonly firstMeter: number;
  readonly lastMeter: number;
}

/**
 * Makes one axis of a unit's meter readings, whatever their order. A reading marked as a reset starts a new meter at 0:
 * its use goes on from the last reading of the old one, so what was driven between the two beyond what the new meter
 * shows is lost. Readings of one day ascend; on the day of a reset those at or above the old meter's last reading are the
 * old meter's.
 *
 * Without a reset a meter never falls. Where readings contradict each other, the longest run that never falls is kept
 * (of two equally long, the one with the earlier readings), the others are passed over with a warning: so one mistyped
 * high reading does not throw away all that follow it.
 */
export function continuousMeter(observations: readonly MeterObservation[]): ContinuousMeter {
  const order = observations.map((_, i) => i);
  const at = (i: number) => observations[i] as MeterObservation;
  order.sort((a, b) => compareText(at(a).date, at(b).date) || at(a).meter - at(b).meter || a - b);

  const cumulative: (number | null)[] = new Array(observations.length).fill(null);
  const points: MeterPoint[] = [];
  const dayStarts: number[] = [];
  const warnings: string[] = [];
  const meters: FittedMeter[] = [];
  let offset = 0;
  for (const run of splitAtResets(order, at)) {
    const first = at(run[0] as number);
    offset = points.at(-1)?.cumulative ?? 0;
    if (meters.length > 0 && first.meter >= (meters.at(-1)?.lastMeter ?? 0)) {
      warnings.push(
        `The reading ${told(first)} is marked as a new meter but is not lower than the last one: taken as a new meter that started at 0.`,
      );
    }
    const kept = longestRising(run, (i) => at(i).meter);
    const used = new Set(kept);
    for (const i of kept) {
      const { date, meter } = at(i);
      const total = meter + offset;
      cumulative[i] = total;
      if (points.at(-1)?.date === date) points.pop();
      else dayStarts.push(total);
      points.push({ date, meter, cumulative: total });
    }
    for (const i of run) {
      if (!used.has(i)) {
        warnings.push(
          `The meter reading ${told(at(i))} does not fit the readings before and after it: passed over. If a new meter was fitted, add a meter reading with meter_reset = yes.`,
        );
      }
    }
    const lastMeter = points.at(-1)?.meter ?? 0;
    meters.push({ fromDate: meters.length === 0 ? "" : first.date, offset, firstMeter: first.meter, lastMeter });
  }
  if (meters.length === 0) meters.push({ fromDate: "", offset: 0, firstMeter: 0, lastMeter: 0 });
  return { cumulative, points, dayStarts, offset, warnings: [...new Set(warnings)], meters };
}

const told = (o: MeterObservation) =>
  `${numberWords(o.meter, Number.isInteger(o.meter) ? 0 : 1)} of ${dateWords(o.date)}`;

/** Cuts the observations, ascending by date and meter, into one run for each meter. */
function splitAtResets(order: readonly number[], at: (i: number) => MeterObservation): number[][] {
  if (!order.some((i) => at(i).reset)) return order.length === 0 ? [] : [[...order]];
  const runs: number[][] = [[]];
  // One by one: a spread puts every reading of a day on the stack, which a day of some 100,000 overflows.
  const goOn = (readings: readonly number[]) => {
    for (const i of readings) runs.at(-1)?.push(i);
  };
  for (let start = 0; start < order.length; ) {
    const { date } = at(order[start] as number);
    let end = start;
    while (end < order.length && at(order[end] as number).date === date) end++;
    const day = order.slice(start, end);
    start = end;
    const resets = day.filter((i) => at(i).reset);
    const firstReset = resets[0];
    if (firstReset === undefined) {
      goOn(day);
      continue;
    }
    const before = runs.at(-1)?.at(-1);
    const oldMeterFrom = before === undefined ? null : at(before).meter;
    const isOld = (i: number) =>
      !at(i).reset && (oldMeterFrom === null ? at(i).meter > at(firstReset).meter : at(i).meter >= oldMeterFrom);
    goOn(day.filter(isOld));
    runs.push(day.filter((i) => !isOld(i)));
  }
  return runs.filter((run) => run.length > 0);
}

/**
 * The longest subsequence that never falls (patience sorting, n log n); run from the end with signs turned, so that of
 * equally long ones the earlier readings win.
 */
function longestRising(run: readonly number[], value: (i: number) => number): readonly number[] {
  let rises = true;
  for (let k = 1; k < run.length && rises; k++) rises = value(run[k] as number) >= value(run[k - 1] as number);
  if (rises) return run;
  const next: number[] = new Array(run.length).fill(-1);
  const heads: number[] = [];
  for (let k = run.length - 1; k >= 0; k--) {
    const v = value(run[k] as number);
    let low = 0;
    let high = heads.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (value(run[heads[middle] as number] as number) >= v) low = middle + 1;
      else high = middle;
    }
    next[k] = low === 0 ? -1 : (heads[low - 1] as number);
    heads[low] = k;
  }
  const kept: number[] = [];
  for (let k = heads.at(-1) ?? -1; k >= 0; k = next[k] as number) kept.push(run[k] as number);
  return kept;
}

/** Use at a date, straight between the readings about it; before the first and after the last reading, as they stand. */
export function cumulativeOnDate(meter: ContinuousMeter, date: IsoDate): number {
  const { points, dayStarts } = meter;
  let low = 0;
  let high = points.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((points[middle] as MeterPoint).date <= date) low = middle + 1;
    else high = middle;
  }
  const before = points[low - 1];
  const after = points[low];
  const end = dayStarts[low];
  if (before === undefined) return end ?? 0;
  if (after === undefined || end === undefined) return before.cumulative;
  const share = daysBetween(before.date, date) / daysBetween(before.date, after.date);
  return before.cumulative + share * (end - before.cumulative);
}

/**
 * Use at a reading that took no part in making the axis (a check; a repair of an engine that may have been out of the
 * unit): on the meter that was fitted on that date, but never beyond the readings of the days before and after.
 */
export function cumulativeOfReading(meter: ContinuousMeter, reading: { date: IsoDate; meter: number }): number {
  const { points, dayStarts, meters } = meter;
  let k = meters.length - 1;
  while (k > 0 && (meters[k]?.fromDate ?? "") > reading.date) k--;
  const fitted = meters[k] as FittedMeter;
  const old = fitted.fromDate === reading.date ? meters[k - 1] : undefined;
  const isNearerOld =
    old !== undefined && Math.abs(reading.meter - old.lastMeter) < Math.abs(reading.meter - fitted.firstMeter);
  const total = reading.meter + (isNearerOld ? old : fitted).offset;
  const before = points.findLast((p) => p.date < reading.date)?.cumulative ?? Number.NEGATIVE_INFINITY;
  const after = dayStarts[points.findIndex((p) => p.date > reading.date)] ?? Number.POSITIVE_INFINITY;
  return Math.min(Math.max(total, before), after);
}

/** Whether a date lies strictly between the first and the last reading. */
export const isBetweenReadings = (meter: ContinuousMeter, date: IsoDate): boolean => {
  const first = meter.points[0];
  const last = meter.points.at(-1);
  return first !== undefined && last !== undefined && first.date < date && date < last.date;
};
