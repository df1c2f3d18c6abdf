import type { Measure } from "../schema/words.ts";

/** Figures as files tell them: no more digits than the tests have, so that a last bit of arithmetic never shows. */

export function rounded(value: number, decimals: number): number {
  const factor = 10 ** decimals;
  // Adding 0 turns -0 into 0.
  return Math.round(value * factor) / factor + 0;
}

export const unitOf = (measure: Measure): "kPa" | "%" => (measure === "leak-down" ? "%" : "kPa");

/** Within what can be read: leakage 0 to 100 %, pressure 0 and more. A line through readings may run off that scale. */
export const onScale = (measure: Measure, value: number): number =>
  Math.max(0, unitOf(measure) === "%" ? Math.min(100, value) : value);

/** A level or reading: hundredths of a per cent, tenths of a kPa. */
export const roundedReading = (measure: Measure, value: number): number =>
  rounded(value, unitOf(measure) === "%" ? 2 : 1);

/** A rate per thousand of the meter unit: four decimals, for a van's rate per 1,000 km is some thousandths of a point. */
export const roundedRate = (value: number): number => rounded(value, 4);
