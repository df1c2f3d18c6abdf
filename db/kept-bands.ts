import { inArray } from "drizzle-orm";
import type { FleetRow } from "../lib/schema/report.ts";
import { forChunks } from "./chunks.ts";
import type { Store } from "./store.ts";

/** What a unit is told of at first sight: its band, and when its repairs are likely. */
export type ToldUnit = Pick<FleetRow, "band" | "topEnd" | "bottomEnd">;

/** What is told of units now; those without a report are missing. */
export async function keptBands(
  { q, fleetRows }: Store,
  units: readonly string[],
): Promise<ReadonlyMap<string, ToldUnit>> {
  const { unit, band, topEnd, bottomEnd } = fleetRows;
  const rows = await forChunks(units, (part) =>
    q.select({ unit, band, topEnd, bottomEnd }).from(fleetRows).where(inArray(unit, part)),
  );
  return new Map(rows.map(({ unit: name, ...told }) => [name, told]));
}
