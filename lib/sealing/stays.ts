import type { IsoDate, RepairFact, TestFact } from "../schema/facts.ts";
import { dateWords } from "../wording.ts";
import { cumulativeOnDate } from "./meters.ts";
import type { UnitEvent, UnitTimeline } from "./timeline.ts";

/** One engine's stay in one unit, before the stays of a serial number in several units are joined. */
export interface Stay {
  readonly timeline: UnitTimeline;
  serial: string | null;
  /** null: since the unit is known. */
  readonly fromDate: IsoDate | null;
  readonly fromCumulative: number;
  /** null: still fitted. */
  toDate: IsoDate | null;
  toCumulative: number | null;
  /** Date of the last fact that named the engine; "": only the unit's own row, which has no date, or nothing did. */
  lastNamed: IsoDate;
  events: UnitEvent[];
}

/** A repair of an engine that was not in the unit of its row on that date. */
export type BenchRepair = Extract<UnitEvent, { kind: "repair" }> & { readonly serial: string };

interface Claim {
  readonly unit: string;
  readonly date: IsoDate;
  readonly isSwap: boolean;
}

/** Where tests and swaps saw each engine: by serial number. */
export type Claims = ReadonlyMap<string, readonly Claim[]>;

export function claimsOf(facts: {
  readonly tests: Iterable<TestFact>;
  readonly repairs: Iterable<RepairFact>;
}): Claims {
  const claims = new Map<string, Claim[]>();
  const add = ({ unit, date, engineSerial }: TestFact | RepairFact, isSwap: boolean) => {
    if (engineSerial === null) return;
    const known = claims.get(engineSerial);
    if (known === undefined) claims.set(engineSerial, [{ unit, date, isSwap }]);
    else known.push({ unit, date, isSwap });
  };
  for (const test of facts.tests) add(test, false);
  for (const repair of facts.repairs) if (repair.scope === "engine-swap") add(repair, true);
  return claims;
}

/**
 * Cuts a unit's timeline into the stays of its engines.
 *
 * A swap row ends one stay and starts the next, named or not. A test (or a repair of the engine in the unit) that names
 * the engine gives a stay without a name its name, back to the start of the stay, unless that engine was seen in another
 * unit meanwhile. A test that names another engine than the one known to be in is a swap that nobody recorded: the new
 * stay starts at that test, with a warning. On the day of a swap the tests that name the old engine are the old one's. A
 * repair that names another engine was done on the bench. The unit's own row has no date: where nothing else names its
 * engine it is that of the first stay without a name (a swap that brought it in would have said so), else that of the
 * last, else it is passed over with a warning.
 */
export function staysOf(timeline: UnitTimeline, claims: Claims): { stays: Stay[]; benchRepairs: BenchRepair[] } {
  const { unit, unitFact, warnings } = timeline;
  const known = [timeline.meter.points[0]?.cumulative, timeline.events[0]?.cumulative].filter((c) => c !== undefined);
  const startMeter = Math.min(unitFact?.inServiceMeter ?? 0, ...known);
  let current = newStay(timeline, { serial: null, fromDate: firstDate(timeline), fromCumulative: startMeter });
  const stays: Stay[] = [current];
  const benchRepairs: BenchRepair[] = [];

  const startStay = (event: UnitEvent) => {
    current.toDate = event.date;
    current.toCumulative = event.cumulative;
    current = newStay(timeline, { serial: event.serial, fromDate: event.date, fromCumulative: event.cumulative });
    stays.push(current);
  };
  const record = (stay: Stay, event: UnitEvent) => {
    stay.events.push(event);
    if (event.serial !== null && event.date > stay.lastNamed) stay.lastNamed = event.date;
  };
  const isSeenElsewhere = (serial: string, from: IsoDate, to: IsoDate) =>
    claims.get(serial)?.some((c) => c.unit !== unit && c.date >= from && c.date <= to) ?? false;
  const isOfAnotherStay = (serial: string) => claims.get(serial)?.some((c) => c.unit !== unit || c.isSwap) ?? false;

  for (const event of timeline.events) {
    const { serial } = event;
    if (event.kind === "repair" && event.fact.scope === "engine-swap") {
      if (serial !== null && serial === current.serial) {
        warnings.push(
          `The swap of ${dateWords(event.date)} names engine ${serial}, which was in the unit already: no swap is assumed.`,
        );
        record(current, event);
        continue;
      }
      startStay(event);
      record(current, event);
      continue;
    }
    const previous = stays.at(-2);
    if (serial === null || serial === current.serial) {
      record(current, event);
    } else if (event.date === current.fromDate && previous?.serial === serial) {
      record(previous, event);
    } else if (event.kind === "repair") {
      if (current.serial === null && !isOfAnotherStay(serial)) {
        current.serial = serial;
        record(current, event);
      } else benchRepairs.push({ ...event, serial });
    } else {
      if (current.serial === null && !isSeenElsewhere(serial, current.fromDate ?? "", event.date)) {
        current.serial = serial;
      } else {
        const was = current.serial === null ? "an engine without a known serial number" : `engine ${current.serial}`;
        warnings.push(
          `The test of ${dateWords(event.date)} names engine ${serial}, where ${was} was known: taken as a swap that nobody recorded.`,
        );
        startStay(event);
      }
      record(current, event);
    }
  }
  nameByUnitRow(stays, unitFact?.engineSerial ?? null, warnings);
  return { stays, benchRepairs };
}

/** Date from which the unit's first engine ran; null where it is not told, or facts before it deny it. */
function firstDate({ unitFact, events, checks, warnings }: UnitTimeline): IsoDate | null {
  const inService = unitFact?.inServiceDate ?? null;
  if (inService === null) return null;
  const earlier = [events[0], checks[0]].find((fact) => fact !== undefined && fact.date < inService);
  if (earlier === undefined) return inService;
  warnings.push(
    `There are records of ${dateWords(earlier.date)}, before the unit's in-service date ${dateWords(inService)}: the date is not used.`,
  );
  return null;
}

const newStay = (
  timeline: UnitTimeline,
  start: { serial: string | null; fromDate: IsoDate | null; fromCumulative: number },
): Stay => ({ timeline, ...start, toDate: null, toCumulative: null, lastNamed: "", events: [] });

function nameByUnitRow(stays: readonly Stay[], serial: string | null, warnings: string[]): void {
  if (serial === null || stays.some((stay) => stay.serial === serial)) return;
  const nameless = [stays[0], stays.at(-1)].find((stay) => stay?.serial === null);
  if (nameless !== undefined) nameless.serial = serial;
  else warnings.push(`The unit's own row names engine ${serial}, tests and repairs name others: they were followed.`);
}

/** Ends a stay at a date on which the engine was seen elsewhere; what follows is the stay of an engine not known. */
export function cutStay(stay: Stay, date: IsoDate): Stay {
  const later = stay.events.filter((event) => event.date >= date);
  const reached = Math.min(cumulativeOnDate(stay.timeline.meter, date), later[0]?.cumulative ?? Infinity);
  const cumulative = Math.max(reached, stay.fromCumulative);
  const rest: Stay = {
    ...newStay(stay.timeline, { serial: null, fromDate: date, fromCumulative: cumulative }),
    toDate: stay.toDate,
    toCumulative: stay.toCumulative,
    events: later,
  };
  stay.events = stay.events.filter((event) => event.date < date);
  stay.toDate = date;
  stay.toCumulative = cumulative;
  return rest;
}
