import type { MeterUnit } from "../schema/words.ts";
import { fromKpa, gaugeKpa, meterFactor } from "../units.ts";
import type { Preferences } from "./preferences.ts";

/** Quantities in the viewer's units. */

/** The unit that a meter in `unit` is told in. */
export const shownMeterUnit = (unit: MeterUnit, { distance }: Preferences): MeterUnit =>
  unit === "h" || distance === "as-recorded" ? unit : distance;

/** What a meter reading in `unit` is multiplied by to be told; hours stay as they are. */
export const shownMeterFactor = (unit: MeterUnit, preferences: Preferences): number =>
  meterFactor(unit, shownMeterUnit(unit, preferences)) ?? 1;

/** What a pressure in kPa is multiplied by to be told. */
export const shownPressureFactor = ({ pressure }: Preferences): number => fromKpa(gaugeKpa(1), pressure);

/** Decimals of a pressure that was known to a whole kPa: those that the gauges of each unit are read to. */
export const pressureDigits = { kPa: 0, bar: 1, psi: 0 } as const satisfies Record<Preferences["pressure"], number>;

/** The same of a change of pressure, which is smaller. */
export const changeDigits = { kPa: 0, bar: 2, psi: 1 } as const satisfies Record<Preferences["pressure"], number>;

/** How much meter a rate is told for, in the unit that is shown. */
export const rateBase = (shown: MeterUnit, { ratePer }: Preferences): number => (shown === "h" ? 1_000 : ratePer);
