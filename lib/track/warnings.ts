import { daysBetween } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import { fewestOutcomes, type LimitCase, type Warnings } from "../schema/track-record.ts";
import type { Band, Cause } from "../schema/words.ts";
import type { EngineRepair } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";
import type { ToldBand } from "./forecast-cases.ts";

/** What was told of one engine, in the order of the dates, and what was found. */
export interface EngineTold {
  readonly bands: readonly ToldBand[];
  readonly limits: readonly LimitCase[];
  readonly repairs: readonly EngineRepair[];
}

const isFlagged = (band: Band | null): boolean => band === "plan" || band === "past-limit";

/**
 * How long before a limit was met the cylinder was first told "to plan" or "past the limit" without being taken back; and
 * of what was opened (a cylinder, or an engine where nothing is told by cylinder), how much was flagged, flagged and
 * sound (false alarms), or at fault and not flagged.
 */
export function warningsOf(engines: readonly EngineTold[]): Warnings {
  const days: number[] = [];
  let met = 0;
  let opened = 0;
  let openedFlagged = 0;
  let flaggedSound = 0;
  let faultUnflagged = 0;
  for (const { bands, limits, repairs } of engines) {
    for (const one of metOnce(limits)) {
      met += 1;
      const since = flaggedSince(bands, one);
      if (since !== null) days.push(daysBetween(since, one.metOn));
    }
    for (const { cylinders, date, causes } of repairs.flatMap(openings)) {
      const last = cylinders.flatMap((cylinder) => lastBands(bands, cylinder, date));
      if (last.length === 0) continue;
      opened += 1;
      const flagged = last.some(isFlagged);
      if (flagged) openedFlagged += 1;
      if (flagged && causes.length === 0) flaggedSound += 1;
      if (!flagged && causes.some((cause) => cause !== "test-set-up")) faultUnflagged += 1;
    }
  }
  days.sort((a, b) => a - b);
  const medianDays = met >= fewestOutcomes && days.length > 0 ? Math.round(median(days)) : null;
  return { met, warned: days.length, medianDays, days, opened, openedFlagged, flaggedSound, faultUnflagged };
}

type MetCase = LimitCase & { readonly metOn: IsoDate };

/** Each meeting of a limit once, however many forecasts came before it. */
function metOnce(limits: readonly LimitCase[]): MetCase[] {
  const once = new Map<string, MetCase>();
  for (const one of limits) {
    if (one.metOn === null) continue;
    once.set(`${one.cylinder} ${one.measure} ${one.until}`, one as MetCase);
  }
  return [...once.values()];
}

function flaggedSince(bands: readonly ToldBand[], { cylinder, measure, metOn }: MetCase): IsoDate | null {
  let since: IsoDate | null = null;
  for (const told of bands) {
    if (told.cylinder !== cylinder || told.measure !== measure || told.date > metOn) continue;
    since = isFlagged(told.band) ? (since ?? told.date) : null;
  }
  return since;
}

/** The last band told before it was opened on the day, of each measure. */
function lastBands(bands: readonly ToldBand[], cylinder: number, day: IsoDate): (Band | null)[] {
  const last = new Map<string, Band | null>();
  for (const told of bands) {
    if (told.cylinder !== cylinder || told.date > day || (told.date === day && !told.beforeOpening)) continue;
    last.set(told.measure, told.band);
  }
  return [...last.values()].filter((band) => band !== null);
}

/** What a strip-down showed, by cylinder; where it was told of the engine as a whole, that is one opening. */
function openings({ date, cylinders, found, findings }: EngineRepair) {
  const byCylinder: { cylinders: readonly number[]; date: IsoDate; causes: readonly Cause[] }[] = findings.map(
    ({ cylinder, causes }) => ({ cylinders: [cylinder], date, causes }),
  );
  return findings.length > 0 || found.length === 0 ? byCylinder : [{ cylinders, date, causes: found }];
}
