import type { JudgedMeasure } from "./schema/words.ts";

/**
 * Standard deviation of one reading about the truth from one test to another, in the unit of the measure, told apart into
 * what the test's readings share (battery, temperature, gauge) and each one's own. Engineering judgement: compression
 * 2.5 % and 1.5 % of level; leakage 1.5 points, and 1 point and 7 % of level.
 */
export function repeatability(
  measure: JudgedMeasure,
  level: number,
): { readonly shared: number; readonly own: number } {
  return measure === "leak-down"
    ? { shared: 1.5, own: 1 + 0.07 * Math.max(0, level) }
    : { shared: 0.025 * level, own: 0.015 * level };
}
