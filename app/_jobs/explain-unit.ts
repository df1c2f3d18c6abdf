import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { explaining } from "../../lib/explain/explain.ts";
import type { UnitExplanation } from "../../lib/explain/types.ts";
import type { UnitReport } from "../../lib/schema/report.ts";
import { fleetParts } from "./fleet-parts.ts";
import { asFleetPools, keptPools } from "./kept-pools.ts";
import { breather } from "./progress.ts";

/**
 * Why the date of a unit's report is what it is: from the facts that stand, under the pools in force, for the day that the
 * report was made for. It takes some dozen assessments of the one unit, and keeps nothing. null: nothing is known of it.
 */
export async function explainUnitNow(store: Store, report: UnitReport): Promise<UnitExplanation | null> {
  const { asOf, model, assessment } = report;
  const [settings, kept] = await Promise.all([readSettings(store), keptPools(store)]);
  const options = { asOf, settings, pools: asFleetPools(kept) };
  // A unit that tells no meter unit had its model's usual one when its report was made.
  const usualMeterUnits = new Map([[model.id, assessment.meter.unit]]);
  const breathe = breather(undefined);
  for await (const { index } of fleetParts(store, [assessment.unit], { asOf, usualMeterUnits })) {
    const unit = index.units.find((one) => one.unit === assessment.unit);
    if (unit === undefined) continue;
    const steps = explaining(index, unit, options);
    for (;;) {
      const step = steps.next();
      if (step.done === true) return step.value;
      await breathe();
    }
  }
  return null;
}
