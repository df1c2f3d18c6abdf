import {
  type Cause,
  type CheckKind,
  type CrossingStatus,
  type Measure,
  type MeterUnit,
  type Place,
  repairClassOf,
} from "@/lib/schema/words.ts";

/** The words of the file formats as people read them on the Unit page. */

export const measureTitles = {
  "leak-down": "Leak-down",
  "compression-dry": "Compression",
  "compression-wet": "Wet compression",
} as const satisfies Record<Measure, string>;

/** The class of repair that a cause calls for. */
export function repairClassWords(cause: Cause): string {
  const of = repairClassOf[cause];
  return of === "test-set-up" ? "no repair" : of;
}

export const placeWords = {
  crankcase: "crankcase",
  inlet: "inlet",
  exhaust: "exhaust",
  coolant: "coolant",
  neighbour: "next cylinder",
  none: "nowhere",
} as const satisfies Record<Place, string>;

export const checkWords = {
  borescope: "Borescope",
  "combustion-gas-in-coolant": "Combustion gas in the coolant",
  "cooling-pressure": "Cooling system under pressure",
  "valve-clearance": "Valve clearance",
  "valve-lift": "Valve lift",
  "blow-by": "Blow-by",
  "oil-use": "Oil use",
} as const satisfies Record<CheckKind, string>;

export const crossingWords = {
  crossed: "at or past it now",
  projected: "projected",
  "not-foreseen": "not foreseen",
  "too-few-tests": "too few tests",
} as const satisfies Record<CrossingStatus, string>;

/** What the meter axis counts. */
export function axisWords(unit: MeterUnit, axisIsMeter: boolean): string {
  const counted = unit === "h" ? "running hours" : `distance, ${unit}`;
  return axisIsMeter ? counted : `${counted} of this engine (not the unit’s meter)`;
}
