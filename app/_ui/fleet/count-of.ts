import type { FleetCounts, FleetQuery } from "../../../lib/schema/report.ts";

/** How many units a filter leaves of those counted. */
export function countOf(counts: FleetCounts, band: FleetQuery["band"]): number {
  if (band === null) return counts.all;
  if (band === "never-tested") return counts.neverTested;
  if (band === "overdue") return counts.overdue;
  if (band === "question") return counts.questions;
  return counts.byBand[band];
}
