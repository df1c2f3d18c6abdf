import type { PlanScope } from "../schema/kept-plan.ts";

/** A planned repair inside a sentence or a heading: "V-104 top-end repair". */
export const planScopeWords = {
  "top-end": "top-end repair",
  "bottom-end": "bottom-end repair",
  both: "top and bottom end together",
  exchange: "exchange engine",
} as const satisfies Record<PlanScope, string>;
