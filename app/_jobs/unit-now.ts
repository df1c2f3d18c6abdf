import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import type { AssessOptions } from "../../lib/assess.ts";
import type { UnitReport } from "../../lib/schema/report.ts";
import type { FleetIndex, UnitHistory } from "../../lib/sealing/types.ts";
import { fleetParts } from "./fleet-parts.ts";
import { asFleetPools, keptPools } from "./kept-pools.ts";

/** A unit among those that its engine was ever in, and what it is assessed with. */
interface UnitNow {
  readonly index: FleetIndex;
  readonly unit: UnitHistory;
  readonly options: AssessOptions;
}

/**
 * What it takes to assess one unit again beside its report: the facts that stand, the pools in force, the day that the
 * report was made for. Asks the store for the facts of this unit and those connected with it alone. null: nothing is known
 * of it any more. Why pages may do that: `docs/decisions/0023-assessed-on-a-page.md`.
 */
export async function unitNow(store: Store, { asOf, model, assessment }: UnitReport): Promise<UnitNow | null> {
  const [settings, kept] = await Promise.all([readSettings(store), keptPools(store)]);
  // A unit that tells no meter unit had its model's usual one when its report was made.
  const usualMeterUnits = new Map([[model.id, assessment.meter.unit]]);
  for await (const { index } of fleetParts(store, [assessment.unit], { asOf, usualMeterUnits })) {
    const unit = index.units.find((one) => one.unit === assessment.unit);
    if (unit !== undefined) return { index, unit, options: { asOf, settings, pools: asFleetPools(kept) } };
  }
  return null;
}
