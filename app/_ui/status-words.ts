import type { UnitReport } from "../../lib/schema/report.ts";

/** A unit's status as pages show it. */
export const statusWords = {
  "in-service": "in service",
  stopped: "stopped",
  retired: "retired",
} as const satisfies Record<UnitReport["status"], string>;
