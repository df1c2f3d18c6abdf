import { inArray } from "drizzle-orm";
import type { FleetRow } from "../lib/schema/report.ts";
import { forChunks } from "./chunks.ts";
import { standingOf } from "./standing.ts";
import type { Store } from "./store.ts";

/**
 * What a unit is told of at first sight: its band, and when its repairs are likely by its own tests. A window that its
 * model alone foresees is none of it.
 */
export type ToldUnit = Pick<FleetRow, "band" | "topEnd" | "bottomEnd">;

/** What is told of units now; those without a report are missing. */
export async function keptBands(
  { q, fleetRows }: Store,
  units: readonly string[],
): Promise<ReadonlyMap<string, ToldUnit>> {
  const rows = await forChunks(units, (part) => q.select().from(fleetRows).where(inArray(fleetRows.unit, part)));
  return new Map(
    rows.map((row) => {
      const { band, topEnd, bottomEnd } = standingOf(row);
      return [row.unit, { band, topEnd, bottomEnd }];
    }),
  );
}
