import type { MeterUnit, PressureUnit } from "./schema/words.ts";

/**
 * Quantities with their unit in the type, and every conversion of the app. Only this file casts: a number becomes a
 * quantity by one of the makers below, so gauge and absolute pressure, or an area and a length, can't change places.
 *
 * Factors are exact by definition: inch 25.4 mm, pound 0.45359237 kg, standard gravity 9.80665 m/s2, bar 100 kPa, mile
 * 1609.344 m (NIST SP 811, 2008, appendix B).
 */

declare const unit: unique symbol;
type Quantity<U extends string> = number & { readonly [unit]: U };

export type GaugeKpa = Quantity<"kPa gauge">;
export type AbsKpa = Quantity<"kPa absolute">;
export type Mm2 = Quantity<"mm2">;
export type Percent = Quantity<"%">;

export const gaugeKpa = (value: number): GaugeKpa => value as GaugeKpa;
export const absKpa = (value: number): AbsKpa => value as AbsKpa;
export const mm2 = (value: number): Mm2 => value as Mm2;
export const percent = (value: number): Percent => value as Percent;

const standardGravity = 9.80665;
const poundKg = 0.45359237;
const inchM = 0.0254;

/** How many kPa one of each unit is. */
const kpaPer = {
  kPa: 1,
  bar: 100,
  psi: (poundKg * standardGravity) / (inchM * inchM) / 1000,
  "kgf/cm2": standardGravity * 10,
} as const satisfies Record<PressureUnit, number>;

/** A gauge pressure read in `from`, in kPa. */
export const toKpa = (value: number, from: PressureUnit): GaugeKpa => gaugeKpa(value * kpaPer[from]);

/** A gauge pressure in kPa as a gauge marked in `to` would show it. */
export const fromKpa = (value: GaugeKpa, to: PressureUnit): number => value / kpaPer[to];

const kmPerMile = 1.609344;

/**
 * What a meter reading in `from` must be multiplied by to be one in `to`; `null` between hours and a distance, which no
 * factor joins (an engine's km an hour are its own).
 */
export function meterFactor(from: MeterUnit, to: MeterUnit): number | null {
  if (from === to) return 1;
  if (from === "km" && to === "mi") return 1 / kmPerMile;
  if (from === "mi" && to === "km") return kmPerMile;
  return null;
}
