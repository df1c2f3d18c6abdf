import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import type { DoubtfulTests } from "../../lib/condition/reweigh.ts";
import type { Crossing } from "../../lib/schema/assessment.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import { eachUnit } from "./each-unit.ts";
import { fleetKinds } from "./fleet-kinds.ts";
import { asFleetPools, keptPools } from "./kept-pools.ts";

export interface RepairForecast {
  readonly topEnd: Crossing;
  readonly bottomEnd: Crossing;
}

export type WithAndWithout = Readonly<Record<Exclude<DoubtfulTests, "weighed">, RepairForecast>>;

/**
 * A unit's forecast with its doubtful tests in full and without them, under the pools in force. Keeps nothing. null: it
 * cannot be assessed.
 *
 * @param asOf the day that its report is told for
 */
export async function withAndWithout(store: Store, unit: string, asOf: IsoDate): Promise<WithAndWithout | null> {
  const [settings, kept, { usualMeterUnits }] = await Promise.all([
    readSettings(store),
    keptPools(store),
    fleetKinds(store),
  ]);
  const pools = asFleetPools(kept);
  const forecast = async (doubtful: DoubtfulTests): Promise<RepairForecast | null> => {
    let found: RepairForecast | null = null;
    await eachUnit(
      store,
      [unit],
      { asOf, settings, pools, usualMeterUnits, doubtful },
      {
        make: ({ assessment }) => assessment,
        take: ({ unit: of, repairs }) => {
          if (of === unit) found = repairs;
        },
      },
    );
    return found;
  };
  const [inFull, leftOut] = [await forecast("in-full"), await forecast("left-out")];
  return inFull === null || leftOut === null ? null : { "in-full": inFull, "left-out": leftOut };
}
