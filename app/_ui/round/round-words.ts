import type { RoundReason } from "../../../lib/round/reasons.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { JudgedMeasure, MeterUnit } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";

export const testWords = { "leak-down": "leak-down", "compression-dry": "compression" } as const satisfies Record<
  JudgedMeasure,
  string
>;

/** Hours of work, to a quarter where they are few. */
export function hoursWords(hours: number, f: Formats): string {
  const shown = hours < 10 ? Math.round(hours * 4) / 4 : Math.round(hours);
  const digits = Number.isInteger(shown) ? 0 : Number.isInteger(shown * 2) ? 1 : 2;
  return `${f.number(shown, digits)}\u00a0h`;
}

/** Why a unit is on the round, as a sentence. */
export function reasonWords(reason: RoundReason, f: Formats, meterUnit: MeterUnit): string {
  switch (reason.kind) {
    case "first":
      return reason.never
        ? "Never tested: a first test as the baseline."
        : "No test so far can be used: a new baseline.";
    case "interval":
      return reason.meter === null
        ? `Due by the calendar, ${f.date(reason.on)}.`
        : `Due at ${f.meter(reason.meter, meterUnit)}, about ${f.date(reason.on)}.`;
    case "sooner":
      return `On watch or worse, so before its interval ends: ${f.date(reason.on)}.`;
    case "question":
      return `Repeat: ${f.words(reason.words).replace(/[.?]$/, "")}.`;
  }
}

interface Round {
  readonly units: number;
  readonly overdue: number;
  readonly hours: number;
  readonly depot: string | null;
  readonly until: IsoDate;
  /** Days ahead that were asked for. */
  readonly days: number;
}

/** How many units the round has, and what they take. */
export function roundFinding({ units, overdue, hours, depot, until, days }: Round, f: Formats): string {
  const where = depot === null ? "" : ` of ${depot}`;
  const when = days === 0 ? "now" : `by ${f.date(until)}`;
  if (units === 0) return `No unit${where} is due for a test ${when}.`;
  const which = `${f.number(units)} ${units === 1 ? "unit" : "units"}${where} ${units === 1 ? "is" : "are"}`;
  const late =
    overdue === 0 || days === 0
      ? ""
      : `, ${f.number(overdue)} of them ${overdue === 1 ? "is" : "are"} overdue or never tested`;
  return `${which} due for a test ${when}${late}. The round takes about ${hoursWords(hours, f)} of a technician’s time.`;
}

/** What the hours are made of, and how many days that is at the depot. */
export function hoursNote(
  times: { readonly testReadyHours: number; readonly testCylinderMinutes: number },
  days: number | null,
  f: Formats,
): string {
  const each = `${hoursWords(times.testReadyHours, f)} to get an engine ready, and ${f.number(times.testCylinderMinutes, Number.isInteger(times.testCylinderMinutes) ? 0 : 1)}\u00a0min for each cylinder and kind of test`;
  const together =
    days === null ? "" : ` With the technicians here, ${f.number(days, days < 10 ? 1 : 0)} working days.`;
  return `${sentenceWords(each)}.${together}`;
}
