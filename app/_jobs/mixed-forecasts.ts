import { isDeepStrictEqual } from "node:util";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { assessUnit } from "../../lib/assess.ts";
import type { FleetPools } from "../../lib/assessment/pools.ts";
import type { ForecastCause } from "../../lib/budget/bridge-causes.ts";
import {
  factsWithout,
  type MixedForecasts,
  type StageForecast,
  settingsWithout,
  type UnitToMix,
  unitsToMix,
} from "../../lib/budget/bridge-mixtures.ts";
import type { BudgetInputs, InputUnit } from "../../lib/budget/inputs.ts";
import { outlookOf } from "../../lib/plan/outlook-of.ts";
import type { FleetFacts, IsoDate } from "../../lib/schema/facts.ts";
import type { Settings } from "../../lib/schema/settings.ts";
import type { MeterUnit } from "../../lib/schema/words.ts";
import { connectedFacts } from "../../lib/sealing/connected-facts.ts";
import { indexFleet } from "../../lib/sealing/seal.ts";
import { fleetKinds } from "./fleet-kinds.ts";
import { factsInParts } from "./fleet-parts.ts";
import { guarded } from "./guarded.ts";
import { asFleetPools, keptPools } from "./kept-pools.ts";
import { breather, type JobControl, progressOf } from "./progress.ts";

/**
 * Assesses the units whose forecast several causes moved between two budgets, once for each stage between them, from today's facts
 * less what is not put in yet, for today's day and under the pools in force. Some milliseconds a stage; keeps nothing. Of a unit that
 * cannot be assessed so nothing is given but its name; nor where something is on file now, or in force, that the later budget did not
 * know of it: its stages would hold what neither budget has.
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
  const [settings, pools, { usualMeterUnits }] = await Promise.all([
    readSettings(store),
    keptPools(store).then(asFleetPools),
    fleetKinds(store),
  ]);
  const inForce = { asOf: now.asOf, settings, pools, usualMeterUnits };
  for await (const { units, facts } of factsInParts(store, [...toMix.keys()])) {
    for (const name of units) {
      const unit = toMix.get(name);
      if (unit === undefined) continue;
      const own = connectedFacts(facts, name);
      const stages = new Map<ForecastCause, StageForecast>();
      // Without the time that it takes, where no stage can be told anyway.
      if (unit.stages.length > 0 && isAsKnown(forecastAt(own, unit, { undone: nothing, inForce }), unit.now)) {
        for (const { cause, undone } of unit.stages) {
          const forecast = forecastAt(own, unit, { undone, inForce });
          if (forecast !== null) stages.set(cause, forecast);
          await breathe();
        }
      }
      await breathe();
      mixed.set(name, stages);
      onProgress?.(progressOf("assessing", { units: mixed.size, totalUnits: toMix.size }));
    }
  }
  return mixed;
}

const nothing: ReadonlySet<ForecastCause> = new Set();

/** What assessments are made under. */
interface InForce {
  readonly asOf: IsoDate;
  readonly settings: Settings;
  readonly pools: FleetPools;
  readonly usualMeterUnits: ReadonlyMap<string, MeterUnit>;
}

/** A unit's forecast from the facts with some causes undone; null: it cannot be assessed so. */
function forecastAt(
  facts: FleetFacts,
  unit: UnitToMix,
  {
    undone,
    inForce: { asOf, settings, pools, usualMeterUnits },
  }: { readonly undone: ReadonlySet<ForecastCause>; readonly inForce: InForce },
): StageForecast | null {
  const name = unit.was.outlook.unit;
  const made = guarded(`the unit ${name}`, () => {
    const index = indexFleet(factsWithout(facts, unit, undone), { asOf, usualMeterUnits });
    const own = index.units.find((one) => one.unit === name);
    const options = { asOf, settings: settingsWithout(settings, unit, undone), pools };
    return own === undefined ? null : forecastOf(outlookOf(assessUnit(index, own, options)));
  });
  return made.ok ? made.value : null;
}

/** Whether what is on file now foresees of the unit what the later budget was drawn from. */
const isAsKnown = (forecast: StageForecast | null, { outlook }: InputUnit): boolean =>
  forecast !== null && isDeepStrictEqual(asKept(forecast), asKept(forecastOf(outlook)));

/** As numbers come back from the store. */
const asKept = (forecast: StageForecast): unknown => JSON.parse(JSON.stringify(forecast));

/** No more than is drawn from: it is copied into a thread of its own. */
const forecastOf = ({ pastLimit, fromModel, ageDays }: StageForecast): StageForecast => ({
  pastLimit,
  fromModel,
  ageDays,
});
