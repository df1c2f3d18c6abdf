import type { WeekCost } from "../../../lib/schema/kept-plan.ts";

/** What a week's expected cost is made of, as lines of a table. */
export const costParts = [
  ["work", "Repair, planned"],
  ["downtime", "Days off the road"],
  ["early", "Unused life given away"],
  ["late", "Running on and failing before"],
] as const satisfies readonly (readonly [keyof WeekCost, string])[];
