import { unitsConnectedTo } from "../../db/connected.ts";
import { fleetFacts } from "../../db/facts.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { assessUnit } from "../../lib/assess.ts";
import type { ForecastCause } from "../../lib/budget/bridge-causes.ts";
import {
  factsWithout,
  type MixedForecasts,
  type StageForecast,
  settingsWithout,
  unitsToMix,
} from "../../lib/budget/bridge-mixtures.ts";
import type { BudgetInputs } from "../../lib/budget/inputs.ts";
import { outlookOf } from "../../lib/plan/outlook-of.ts";
import { indexFleet } from "../../lib/sealing/seal.ts";
import { fleetKinds } from "./fleet-kinds.ts";
import { guarded } from "./guarded.ts";
import { asFleetPools, keptPools } from "./kept-pools.ts";
import { breather, type JobControl, progressOf } from "./progress.ts";

/**
 * Assesses the units whose forecast several causes moved between two budgets, once for each stage between them, from today's facts
 * less what is not put in yet, for today's day and under the pools in force. Some milliseconds a stage; keeps nothing. Of a unit that
 * cannot be assessed so nothing is given but its name.
 */
export async function mixedForecasts(
  store: Store,
  { was, now }: { readonly was: BudgetInputs; readonly now: BudgetInputs },
  { onProgress, signal }: JobControl = {},
): Promise<MixedForecasts> {
  const toMix = unitsToMix(was, now);
  const mixed = new Map<string, ReadonlyMap<ForecastCause, StageForecast>>();
  if (toMix.size === 0) return mixed;
  const breathe = breather(signal);
  const { asOf } = now;
  const [settings, pools, { usualMeterUnits }] = await Promise.all([
    readSettings(store),
    keptPools(store).then(asFleetPools),
    fleetKinds(store),
  ]);
  for (const [name, unit] of toMix) {
    const stages = new Map<ForecastCause, StageForecast>();
    const facts = await fleetFacts(store, { units: await unitsConnectedTo(store, [name]) });
    for (const { cause, undone } of unit.stages) {
      const made = guarded(`the unit ${name}`, () => {
        const index = indexFleet(factsWithout(facts, unit, undone), { asOf, usualMeterUnits });
        const own = index.units.find((one) => one.unit === name);
        const options = { asOf, settings: settingsWithout(settings, unit, undone), pools };
        return own === undefined ? null : forecastOf(outlookOf(assessUnit(index, own, options)));
      });
      if (made.ok && made.value !== null) stages.set(cause, made.value);
      await breathe();
    }
    mixed.set(name, stages);
    onProgress?.(progressOf("assessing", { units: mixed.size, totalUnits: toMix.size }));
  }
  return mixed;
}

/** No more than is drawn from: it is copied into a thread of its own. */
const forecastOf = ({ pastLimit, fromModel, ageDays }: StageForecast): StageForecast => ({
  pastLimit,
  fromModel,
  ageDays,
});
