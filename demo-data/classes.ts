import type { MeterUnit } from "../lib/schema/words.ts";

/** What the letter of a fleet number stands for. */
export interface UnitClass {
  readonly class: string;
  readonly model: string;
  readonly meterUnit: MeterUnit;
  readonly serialPrefix: string;
}

const classes: Readonly<Record<string, UnitClass>> = {
  V: { class: "van", model: "petrol-4-a", meterUnit: "km", serialPrefix: "QP4" },
  L: { class: "light truck", model: "diesel-4-a", meterUnit: "km", serialPrefix: "QD4" },
  H: { class: "heavy truck", model: "diesel-6-a", meterUnit: "km", serialPrefix: "QD6" },
  G: { class: "generator", model: "diesel-6-a", meterUnit: "h", serialPrefix: "QD6" },
  P: { class: "pump", model: "petrol-v8-a", meterUnit: "h", serialPrefix: "QV8" },
  M: { class: "mower", model: "air-1-a", meterUnit: "h", serialPrefix: "QA1" },
  A: { class: "patrol aircraft", model: "air-flat4-a", meterUnit: "h", serialPrefix: "QF4" },
};

export function classOf(unit: string): UnitClass {
  const found = classes[unit.charAt(0)];
  if (found === undefined) throw new Error(`no class for ${unit}`);
  return found;
}

/** Serial number of the engine that a unit came with. */
export const serialOf = (unit: string): string => `${classOf(unit).serialPrefix}-${4 * Number(unit.slice(2)) + 3107}`;
