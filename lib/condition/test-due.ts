import { addDays, daysBetween } from "../calendar.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { AssessmentSettings } from "../schema/settings.ts";
import type { MeterUnit } from "../schema/words.ts";
import { meterFactor } from "../units.ts";
import { dateWords, dayWords, meterWords } from "../wording.ts";

export interface Moment {
  readonly date: IsoDate;
  /** The engine's wear meter. */
  readonly x: number;
}

export interface TestDue {
  readonly overdue: boolean;
  /** When the interval ends, or ended; null: the model has no interval. Never tested: today. */
  readonly dueDate: IsoDate | null;
  /** Empty where a test is on file and not overdue. */
  readonly words: string;
}

/** Said of an engine that was never tested, and of one whose tests all were set aside. */
export const noTest = {
  never: "never tested",
  neverSinceSwap: "this engine was never tested",
  noneUsable: "no usable test yet",
} as const;

/** When a test is due again: so much on the unit's meter, or so many days, whichever ends first. */
export interface TestInterval {
  readonly meter?: number | undefined;
  readonly days?: number | undefined;
}

/**
 * The test interval of a unit: its engine model's, and only where that states none at all, the fleet's. undefined: there
 * is none. The fleet's distance is turned into miles for a meter that counts these.
 */
export function testIntervalOf(
  { testInterval: own }: Pick<EngineModel, "testInterval">,
  meterUnit: MeterUnit,
  fleet: Pick<AssessmentSettings, "testIntervalDays" | "testIntervalKm" | "testIntervalHours">,
): TestInterval | undefined {
  if (own?.meter !== undefined || own?.days !== undefined) return own;
  const km = meterFactor("km", meterUnit);
  const meter =
    km === null ? fleet.testIntervalHours : fleet.testIntervalKm === null ? null : fleet.testIntervalKm * km;
  const days = fleet.testIntervalDays;
  if (meter === null && days === null) return undefined;
  return { meter: meter ?? undefined, days: days ?? undefined };
}

/**
 * Whether the test interval, by meter or by days, whichever ends first, has passed since the last test that told
 * something. An engine without one is overdue at once.
 *
 * @param lastTest null: none, for the reason of `without`
 * @param setAside a later test was made and is kept, not used
 * @param daysFor days from now until so much is used, to tell the date on which the interval by meter ends; less than 0:
 *   days ago; infinite: never
 */
export function testDue({
  lastTest,
  without = "never",
  setAside = false,
  now,
  interval,
  daysFor,
  meterUnit,
}: {
  readonly lastTest: Moment | null;
  readonly without?: keyof typeof noTest;
  readonly setAside?: boolean;
  readonly now: Moment;
  readonly interval: TestInterval | undefined;
  readonly daysFor: (distance: number) => number;
  readonly meterUnit: MeterUnit;
}): TestDue {
  if (lastTest === null) {
    return { overdue: true, dueDate: now.date, words: `${noTest[without]}: book a first test as the baseline` };
  }
  const days = daysBetween(lastTest.date, now.date);
  const used = now.x - lastTest.x;
  const byDays = interval?.days !== undefined && days > interval.days;
  const byMeter = interval?.meter !== undefined && used > interval.meter;
  const dueDates: IsoDate[] = [];
  if (interval?.days !== undefined) dueDates.push(addDays(lastTest.date, Math.floor(interval.days)));
  if (interval?.meter !== undefined) {
    const ahead = Math.floor(daysFor(interval.meter - used));
    // A unit that hardly works never gets there by meter; a date centuries off would say nothing.
    if (ahead < 36_500) dueDates.push(addDays(now.date, Math.max(ahead, -days)));
  }
  const since: string[] = [];
  if (byDays) since.push(`${dayWords(days)} ago, interval ${dayWords(interval?.days ?? 0)}`);
  if (byMeter)
    since.push(`${meterWords(used, meterUnit)} ago, interval ${meterWords(interval?.meter ?? 0, meterUnit)}`);
  return {
    overdue: byDays || byMeter,
    dueDate: dueDates.toSorted()[0] ?? null,
    words:
      since.length === 0
        ? ""
        : `test overdue: last ${setAside ? "usable " : ""}test ${dateWords(lastTest.date)}, ${since.join("; ")}`,
  };
}
