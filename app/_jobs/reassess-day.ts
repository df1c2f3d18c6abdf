import { keepsOtherFormat, keptAsOf } from "../../db/assessments.ts";
import { assessedVersion, factsVersion, markAssessed } from "../../db/meta.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { asOfDate } from "./as-of.ts";
import { exclusively } from "./exclusive.ts";
import type { Act, JobControl } from "./progress.ts";
import { type Reassessed, reassess } from "./reassess.ts";

/**
 * Tells the fleet for today: when reports are of another as-of date, all are made anew under the pools in force.
 * Also makes good what a process left undone that was ended between a commit and its assessments, and reports of another
 * form that an older program kept. To be called when the server starts and when a day has passed; null: everything was
 * up to date.
 */
export function reassessDay(store: Store, act: Act, control: JobControl = {}): Promise<Reassessed | null> {
  return exclusively(store, async () => {
    const version = await factsVersion(store, store.q);
    const { isBehind, isOtherDay } = await whatIsLeft(store, act.now);
    if (!isBehind && !isOtherDay) return null;
    const reassessed = isBehind
      ? await reassess(store, { units: "all", because: "rebuild" }, act, control)
      : await reassess(store, { units: "all", because: "day", pools: "stay" }, act, control);
    await markAssessed(store, version, { whole: true });
    return reassessed;
  });
}

/**
 * Whether reports were made from other facts or settings than those in force, or by a program that knew another form of
 * report; and whether for another day.
 */
export async function whatIsLeft(
  store: Store,
  now: Date,
): Promise<{ readonly isBehind: boolean; readonly isOtherDay: boolean }> {
  const isBehind =
    (await assessedVersion(store)) < (await factsVersion(store, store.q)) || (await keepsOtherFormat(store));
  const oldest = await keptAsOf(store);
  const isOtherDay = oldest !== null && oldest !== asOfDate(await readSettings(store), now);
  return { isBehind, isOtherDay };
}
