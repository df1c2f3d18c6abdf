import { sweepStaged } from "../../db/import-state.ts";
import type { Store } from "../../db/store.ts";

const anHourMs = 3_600_000;

/**
 * Takes away what killed processes left half read. Of a process on another machine nobody knows whether it runs: its
 * import is given an hour.
 */
export async function sweepAbandoned(store: Store, now: Date): Promise<void> {
  const olderThan = new Date(now.getTime() - anHourMs).toISOString();
  await sweepStaged(store, { olderThan, by: "Borecast", at: now.toISOString() });
}
