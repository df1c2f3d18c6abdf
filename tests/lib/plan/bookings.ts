import type { KeptBooking } from "@/lib/schema/kept-plan.ts";
import { topEnd } from "./problem.ts";

/** A made-up booking as a plan keeps it. */
export const keptBooking = (more: Partial<KeptBooking> = {}): KeptBooking => ({
  unit: "V-104",
  depot: "Lowmarsh",
  engineModel: "petrol-4-a",
  scope: "top-end",
  week: 9,
  start: "2026-11-02",
  work: topEnd,
  cost: { work: 170_000, downtime: 36_000, early: 0, late: 0 },
  span: [{ week: 9, bayDays: 2, hours: 14, daysOff: 3 }],
  isPinned: false,
  sure: 0.74,
  windows: [{ of: "topEnd", p10: "2026-10-20", p50: "2026-11-09", p90: "2027-02-14" }],
  ...more,
});
