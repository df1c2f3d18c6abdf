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

/** Decimals of a pressure that was known to a whole kPa, so that two that differ there differ here and at their limit. */
export const pressureDigits = { kPa: 0, bar: 2, psi: 1 } as const satisfies Record<Preferences["pressure"], number>;

/**
 * Decimals of a change of pressure in the unit shown: as many as its second figure needs, for ordinary wear is a few kPa
 * in 10,000 km, and no rate but none may read as nought.
 */
export function changeDigits(change: number, pressure: Preferences["pressure"]): number {
  const usual = { kPa: 0, bar: 2, psi: 1 }[pressure];
  const size = Math.abs(change);
  if (size === 0 || size >= 10) return usual;
  return Math.min(4, Math.max(usual, 1 - Math.floor(Math.log10(size))));
}

/** How much meter a rate is told for, in the unit that is shown. */
export const rateBase = (shown: MeterUnit, { ratePer }: Preferences): number => (shown === "h" ? 1_000 : ratePer);
