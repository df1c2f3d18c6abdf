import { addDays, mondayOfWeek, weeksOfYear } from "../../../lib/calendar.ts";
import { periodsWithin, weekCount } from "../../../lib/depot-calendar.ts";
import type { DepotPeriod, DepotSetup } from "../../../lib/schema/depot.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import { seaLevelShare } from "../../../lib/sealing/atmosphere.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords } from "../../../lib/wording.ts";

const noBreak = "\u00a0";

export const metres = (f: Formats, altitudeM: number): string =>
  `${f.number(altitudeM, Number.isInteger(altitudeM) ? 0 : 1)}${noBreak}m`;

const shareAt = (altitudeM: number): number => Math.round(100 * seaLevelShare(altitudeM));

/** Why nothing is kept of a depot. */
export const unknownDepot = (depot: string): string =>
  `No depot ${depot} is on the books any more. Look at the list of depots; nothing was changed.`;

/** "the air has 80 % of its pressure at sea level". */
export const airWords = (f: Formats, altitudeM: number): string =>
  shareAt(altitudeM) === 100
    ? "as good as sea level"
    : `the air has ${f.percent(shareAt(altitudeM))} of its pressure at sea level`;

/** What an altitude does to readings, known or not. One or two sentences. */
export function altitudeFinding(f: Formats, depot: string, altitudeM: number | null): string {
  if (altitudeM === null) {
    return `The altitude of ${depot} is not known: compression tested there is read as at sea level, with a wider error.`;
  }
  if (shareAt(altitudeM) === 100)
    return `${depot} lies at ${metres(f, altitudeM)}, ${airWords(f, altitudeM)}: compression counts as it is read.`;
  return `${depot} lies at ${metres(f, altitudeM)}, where ${airWords(f, altitudeM)}: compression is referred to sea level, and leak-down by the little that it differs there.`;
}

const kindWords = { peak: "peak", closed: "closed" } as const satisfies Record<DepotPeriod["kind"], string>;

/** "closed weeks 46 to 8", "peak week 27", "closed 21 Dec 2026 to 3 Jan 2027, once" */
export function periodWords(f: Formats, period: DepotPeriod): string {
  const kind = kindWords[period.kind];
  if (period.repeat === "once") return `${kind} ${datesWords(f, period.firstDate, period.lastDate)}, once`;
  const { firstWeek, lastWeek } = period;
  return firstWeek === lastWeek ? `${kind} week ${firstWeek}` : `${kind} weeks ${firstWeek} to ${lastWeek}`;
}

const datesWords = (f: Formats, first: IsoDate, last: IsoDate): string =>
  first === last ? f.date(first) : `${f.date(first)} to ${f.date(last)}`;

/** When a yearly period's weeks lie, those that begin in `year`: "9 Nov 2026 to 28 Feb 2027, 16 weeks". */
export function weeksWords(
  f: Formats,
  period: { readonly firstWeek: number; readonly lastWeek: number },
  year: number,
): string {
  const { firstWeek, lastWeek } = period;
  const overYearEnd = lastWeek < firstWeek;
  const last = addDays(mondayOfWeek(overYearEnd ? year + 1 : year, lastWeek), 6);
  const count = weekCount(period, weeksOfYear(year));
  const length = `${f.number(count)} ${count === 1 ? "week" : "weeks"}`;
  return `${datesWords(f, mondayOfWeek(year, firstWeek), last)}, ${length}${overYearEnd ? ", over the year’s end" : ""}`;
}

/** What of a calendar holds on a date, or comes next within a year, in words, and from when; null: nothing does. */
export function calendarNow(
  f: Formats,
  periods: readonly DepotPeriod[],
  asOf: IsoDate,
): { readonly words: string; readonly from: IsoDate | null } {
  const spans = periodsWithin(periods, asOf, addDays(asOf, 365));
  const now = spans.filter((span) => span.from === asOf);
  const current = now.find((span) => span.kind === "closed") ?? now[0];
  if (current !== undefined) {
    const state = current.kind === "closed" ? "closed" : "in its peak weeks";
    return { words: `${state} until ${f.date(current.to)}`, from: asOf };
  }
  const [next] = spans;
  if (next === undefined) return { words: "", from: null };
  const words = next.kind === "closed" ? `closed from ${f.date(next.from)}` : `peak weeks from ${f.date(next.from)}`;
  return { words, from: next.from };
}

/**
 * What a depot has to work with: "2 bays, 4 technicians, 6 h a day on engines each, 5 days a week, 2 build bottom ends, 62
 * an hour of labour". Empty: nothing is told.
 */
export function capacityWords(f: Formats, setup: Omit<DepotSetup, "periods" | "retired">): string {
  const { bays, technicians, productiveHoursPerDay: hours, daysPerWeek, builders, labourRate } = setup;
  const counted = (count: number, one: string, more: string) => `${f.number(count)} ${count === 1 ? one : more}`;
  return [
    bays === null ? "" : counted(bays, "bay", "bays"),
    technicians === null ? "" : counted(technicians, "technician", "technicians"),
    hours === null
      ? ""
      : `${f.number(hours, digitsOf(hours))}${noBreak}h a day on engines${technicians === 1 ? "" : " each"}`,
    daysPerWeek === null ? "" : `${f.days(daysPerWeek)} a week`,
    builders === null ? "" : `${f.number(builders)} ${builders === 1 ? "builds" : "build"} bottom ends`,
    labourRate === null ? "" : `${f.number(labourRate, digitsOf(labourRate))} an hour of labour`,
  ]
    .filter((words) => words !== "")
    .join(", ");
}

const digitsOf = (hours: number): number => [0, 1].find((digits) => Number(hours.toFixed(digits)) === hours) ?? 2;

/** What one change made of what was told before: one short phrase for each difference. */
export function setupChanges(f: Formats, before: DepotSetup, after: DepotSetup): string[] {
  const told = (value: number | null) => (value === null ? "not told" : f.number(value, digitsOf(value)));
  const figures = [
    ["bays", before.bays, after.bays],
    ["technicians", before.technicians, after.technicians],
    ["hours of engine work a day", before.productiveHoursPerDay, after.productiveHoursPerDay],
    ["working days a week", before.daysPerWeek, after.daysPerWeek],
    ["people who build bottom ends", before.builders, after.builders],
    ["labour rate", before.labourRate, after.labourRate],
  ] as const;
  const phrase = (period: DepotPeriod) =>
    `${periodWords(f, period)}${period.remarks === null ? "" : ` (${period.remarks})`}`;
  const [were, are] = [before.periods.map(phrase), after.periods.map(phrase)];
  const added = are.filter((words) => !were.includes(words));
  const removed = were.filter((words) => !are.includes(words));
  return [
    ...figures.flatMap(([what, was, is]) => (was === is ? [] : [`${what} ${told(was)} → ${told(is)}`])),
    ...(added.length === 0 ? [] : [`added ${listWords(added)}`]),
    ...(removed.length === 0 ? [] : [`removed ${listWords(removed)}`]),
    ...(before.retired === after.retired ? [] : [after.retired ? "retired" : "taken back into use"]),
  ];
}
