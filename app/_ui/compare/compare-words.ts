import type { Figure, Origin } from "../../../lib/schema/comparison.ts";
import type { JudgedMeasure } from "../../../lib/schema/words.ts";

export const measureNames = {
  "leak-down": "Leak-down",
  "compression-dry": "Compression",
} as const satisfies Record<JudgedMeasure, string>;

/** What the vertical axis shows. */
export const levelNames = {
  "leak-down": "leakage",
  "compression-dry": "compression at sea level",
} as const satisfies Record<JudgedMeasure, string>;

export const originNames = {
  new: "since new",
  "top-end": "since a top-end repair",
  "bottom-end": "since a bottom-end repair",
} as const satisfies Record<Origin, string>;

export const figureNames = {
  weakest: "weakest cylinder",
  middle: "middle of the cylinders",
  each: "every cylinder",
} as const satisfies Record<Figure, string>;

export const levelUnitOf = (measure: JudgedMeasure): "%" | "kPa" => (measure === "leak-down" ? "%" : "kPa");
