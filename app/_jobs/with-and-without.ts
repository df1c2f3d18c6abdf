import type { Store } from "../../db/store.ts";
import { assessUnit } from "../../lib/assess.ts";
import type { DoubtfulTests } from "../../lib/condition/reweigh.ts";
import { ok, type Result } from "../../lib/result.ts";
import type { Crossing } from "../../lib/schema/assessment.ts";
import type { UnitReport } from "../../lib/schema/report.ts";
import { guarded, type NotAssessed } from "./guarded.ts";
import { unitNow } from "./unit-now.ts";

export interface RepairForecast {
  readonly topEnd: Crossing;
  readonly bottomEnd: Crossing;
}

export type WithAndWithout = Readonly<Record<Exclude<DoubtfulTests, "weighed">, RepairForecast>>;

/**
 * A unit's forecast with its doubtful tests in full and without them, under the pools in force, for the day that its report
 * was made for: two assessments of the one unit. Keeps nothing. Fails with why it could not be assessed; null: nothing is
 * known of it any more.
 */
export async function withAndWithout(
  store: Store,
  report: UnitReport,
): Promise<Result<WithAndWithout, NotAssessed> | null> {
  const now = await unitNow(store, report);
  if (now === null) return null;
  const { index, unit, options } = now;
  const forecast = (doubtful: DoubtfulTests) =>
    guarded(`the unit ${unit.unit}`, () => assessUnit(index, unit, { ...options, doubtful }).assessment.repairs);
  const inFull = forecast("in-full");
  if (!inFull.ok) return inFull;
  const leftOut = forecast("left-out");
  return leftOut.ok ? ok({ "in-full": inFull.value, "left-out": leftOut.value }) : leftOut;
}
