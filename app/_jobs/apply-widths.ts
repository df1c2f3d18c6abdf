import { assessedVersion, factsVersion, markAssessed, markUnassessed } from "../../db/meta.ts";
import { putPoolsInForce } from "../../db/pools.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import type { RangeWidth } from "../../lib/assessment/pools.ts";
import { nextWidth } from "../../lib/track/widths.ts";
import { asOfDate } from "./as-of.ts";
import { assessUnits } from "./assess-units.ts";
import { compareAnew } from "./compare-anew.ts";
import { exclusively } from "./exclusive.ts";
import { fleetKinds, kindKey } from "./fleet-kinds.ts";
import { asFleetPools, keptPools, widthIn, withWidth } from "./kept-pools.ts";
import type { Act, JobControl } from "./progress.ts";

/**
 * Puts the factors on ranges in force that past forecasts ask for, and then assesses the units of the kinds that have other
 * ones now. The pools come first, so that no report names one that was never kept. Ended in between, the reports are
 * marked as left behind, and `reassessDay` makes them good under the pools in force, whatever the next record asks for.
 * Gives how many units were assessed; null: the facts are no longer those of `version`, which the factors were learnt from.
 */
export function applyWidths(
  store: Store,
  { widths, version }: { readonly widths: readonly RangeWidth[]; readonly version: number },
  { now }: Pick<Act, "now">,
  control: JobControl = {},
): Promise<number | null> {
  return exclusively(store, async () => {
    control.signal?.throwIfAborted();
    if ((await factsVersion(store, store.q)) !== version) return null;
    const before = await keptPools(store);
    const after = before.map((pool) => {
      const asked = widths.find(
        (of) => of.engineModel === pool.engineModel && of.measure === pool.measure && of.meterUnit === pool.meterUnit,
      );
      return withWidth(pool, nextWidth(widthIn(pool), asked?.factor ?? 1));
    });
    const changed = new Set(
      after
        .filter((pool, i) => widthIn(pool) !== widthIn(before[i] ?? pool))
        .map(({ engineModel, meterUnit }) => kindKey(engineModel, meterUnit)),
    );
    if (changed.size === 0) return 0;
    const settings = await readSettings(store);
    const at = now.toISOString();
    const { kinds, usualMeterUnits } = await fleetKinds(store);
    const units = kinds
      .filter(({ model, meterUnit }) => changed.has(kindKey(model.id, meterUnit)))
      .flatMap((kind) => kind.units);
    const common = {
      asOf: asOfDate(settings, now),
      settings,
      pools: asFleetPools(after),
      usualMeterUnits,
      at,
      version,
    };
    const wasWhole = (await assessedVersion(store)) === version;
    await markUnassessed(store);
    await putPoolsInForce(store, after, { at });
    const assessed = await assessUnits(store, units, { ...common, because: "pool", importId: null }, control);
    await compareAnew(store, control);
    // Units left behind before are left behind still.
    if (wasWhole) await markAssessed(store, version, { whole: true });
    return assessed.units;
  });
}
