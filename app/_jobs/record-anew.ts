import { unitsConnectedTo } from "../../db/connected.ts";
import { fleetFacts } from "../../db/facts.ts";
import { factUnits } from "../../db/fleet-known.ts";
import { factsVersion } from "../../db/meta.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { issuedAfterTests, issuedSpan, keepTrackRecord, trackRecordBasis } from "../../db/track-record.ts";
import { assessmentSettings, type Settings } from "../../lib/schema/settings.ts";
import { backTest } from "../../lib/track/back-test.ts";
import { issuedRecord } from "../../lib/track/issued.ts";
import { unitsToJudge } from "../../lib/track/past.ts";
import { trackRecordOf } from "../../lib/track/record.ts";
import { applyWidths } from "./apply-widths.ts";
import { asOfDate } from "./as-of.ts";
import { fleetKinds } from "./fleet-kinds.ts";
import { forecastVersion } from "./forecast-version.ts";
import { type Act, breather, type JobControl } from "./progress.ts";

/**
 * What a record hangs on: the facts, the settings that a forecast asks, and how this program makes one. Not on the day:
 * where nothing new is known, nothing new came. The form of a record is held beside it (`trackFormat`).
 */
function basisOf(facts: number, settings: Settings): string {
  const { asOf } = settings;
  const told = assessmentSettings.map((name) => settings[name]);
  return JSON.stringify({ facts, asOf, told, forecast: forecastVersion });
}

/** What the record is to be made from, where that is not what it was made from; null: it is up to date. */
export async function recordDue(store: Store): Promise<string | null> {
  const basis = basisOf(await factsVersion(store, store.q), await readSettings(store));
  return (await trackRecordBasis(store)) === basis ? null : basis;
}

/**
 * Makes the track record anew where facts, settings or the forecast have changed since, and keeps it; false: it was up to date, or facts
 * changed meanwhile, and the next look makes it. Reads the facts of the units that are gone through alone. Nothing waits
 * for it: imports and assessments go on beside it. Where its factors on ranges are others than those in force, the units of
 * that kind are then assessed anew; the record itself is made without them, so that it asks for the same ones again.
 */
export async function recordAnew(store: Store, act: Act, control: JobControl = {}): Promise<boolean> {
  const { now } = act;
  const version = await factsVersion(store, store.q);
  const settings = await readSettings(store);
  const basis = basisOf(version, settings);
  if ((await trackRecordBasis(store)) === basis) return false;
  const breathe = breather(control.signal);
  const asOf = asOfDate(settings, now);
  const { kinds } = await fleetKinds(store);
  const units = unitsToJudge(kinds.map((kind) => kind.units));
  const facts = await fleetFacts(store, { units: await unitsConnectedTo(store, units) });
  await breathe();
  const known = (await factUnits(store)).length;
  const test = await inSteps(backTest(facts, { asOf, settings }, known), breathe);
  const span = await issuedSpan(store);
  const issued = await issuedAfterTests(store, units);
  const outcome = await inSteps(issuedRecord(facts, issued, { asOf, span }), breathe);
  const record = trackRecordOf(test, outcome);
  // Before it is kept: while it is not, the next look does this again.
  if ((await applyWidths(store, { widths: record.calibration, version }, act, control)) === null) return false;
  if ((await factsVersion(store, store.q)) !== version) return false;
  await keepTrackRecord(store, { basis, madeAt: now.toISOString(), record }, test);
  return true;
}

async function inSteps<T>(steps: Generator<number, T>, breathe: () => Promise<void>): Promise<T> {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    await breathe();
  }
}
