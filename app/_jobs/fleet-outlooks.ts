import { chunks } from "../../db/chunks.ts";
import { reportsOf } from "../../db/round.ts";
import type { Store } from "../../db/store.ts";
import { outlookOfReport } from "../../lib/plan/outlook-of.ts";
import type { UnitOutlook } from "../../lib/plan/problem-of.ts";
import { breather, type JobControl, progressOf } from "./progress.ts";

/** Reports are long. */
const readAtOnce = 20;

/** What a plan and a budget take of each unit, out of the reports in force; by unit. */
export async function fleetOutlooks(
  store: Store,
  units: readonly string[],
  { onProgress, signal }: JobControl = {},
): Promise<UnitOutlook[]> {
  const breathe = breather(signal);
  const outlooks: UnitOutlook[] = [];
  for (const part of chunks(units, readAtOnce)) {
    for (const report of await reportsOf(store, part)) outlooks.push(outlookOfReport(report));
    onProgress?.(progressOf("gathering", { units: outlooks.length, totalUnits: units.length }));
    await breathe();
  }
  return outlooks.toSorted((a, b) => (a.unit < b.unit ? -1 : 1));
}
