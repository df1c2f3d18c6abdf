import type { FleetQuery } from "@/lib/schema/report.ts";

/** The Fleet's table as it is asked for without a choice. */
export const query = (more: Partial<FleetQuery> = {}): FleetQuery => ({
  search: "",
  band: null,
  depot: null,
  model: null,
  group: null,
  sort: "unit",
  descending: false,
  page: 1,
  pageSize: 50,
  ...more,
});
