import type { Measure } from "../schema/words.ts";

/** Figures as files tell them: no more digits than the tests have, so that a last bit of arithmetic never shows. */

export function rounded(value: number, decimals: number): number {
  const factor = 10 ** decimals;
  // Adding 0 turns -0 into 0.
  return Math.round(value * factor) / factor + 0;
}

export const unitOf = (measure: Measure): "kPa" | "%" => (measure === "leak-down" ? "%" : "kPa");

/** A level or reading: hundredths of a per cent, tenths of a kPa. */
export const roundedReading = (measure: Measure, value: number): number =>
  rounded(value, unitOf(measure) === "%" ? 2 : 1);

/** A rate per thousand of the meter unit: four decimals, for a van's rate per 1,000 km is some thousandths of a point. */
export const roundedRate = (value: number): number => rounded(value, 4);
