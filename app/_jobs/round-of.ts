import { standingModels } from "../../db/engine-models.ts";
import { type RoundUnit, reportsOf, roundUnits } from "../../db/round.ts";
import type { Store } from "../../db/store.ts";
import { addDays } from "../../lib/calendar.ts";
import { type RoundEntry, roundEntry } from "../../lib/round/round-entry.ts";
import { testHours } from "../../lib/round/test-hours.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import type { Settings } from "../../lib/schema/settings.ts";

/** A test round: who is due, up to which day, and what it takes; the entries of some units are asked for by `roundEntries`. */
export interface Round {
  readonly until: IsoDate;
  readonly units: readonly RoundUnit[];
  readonly overdue: number;
  /** A technician's hours for all of them. */
  readonly hours: number;
}

interface Asked {
  readonly depot: string | null;
  /** Days ahead of the as-of date. */
  readonly days: number;
  readonly asOf: IsoDate;
}

/** The round of a depot, or of all (`depot` null). */
export async function roundOf(store: Store, settings: Settings, { depot, days, asOf }: Asked): Promise<Round> {
  const until = addDays(asOf, days);
  const [units, models] = await Promise.all([roundUnits(store, { depot, until }), standingModels(store)]);
  const hoursBy = new Map(models.map((model) => [model.id, testHours(model, settings)]));
  return {
    until,
    units,
    overdue: units.filter(({ overdue }) => overdue).length,
    hours: units.reduce((sum, { engineModel }) => sum + (hoursBy.get(engineModel) ?? 0), 0),
  };
}

/** What the round tells of some of its units, in their order. */
export async function roundEntries(
  store: Store,
  settings: Settings,
  { until, units }: { readonly until: IsoDate; readonly units: readonly RoundUnit[] },
): Promise<RoundEntry[]> {
  const reports = await reportsOf(
    store,
    units.map(({ unit }) => unit),
  );
  return reports.map((report) => roundEntry(report, settings, until));
}
