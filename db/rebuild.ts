import { eq } from "drizzle-orm";
import type { Store } from "./store.ts";

/**
 * Deletes what can be made again from the facts: reports, fleet rows, engines and their fittings; pools go out of
 * force. What was issued once stays: the history of assessments and the versions of pools.
 */
export function clearDerived(store: Store, { at }: { at: string }): Promise<void> {
  const { reports, fleetRows, engines, pools } = store;
  return store.atomically((q) => [
    q.delete(reports),
    q.delete(fleetRows),
    q.delete(engines),
    q.update(pools).set({ inForce: false, replacedAt: at }).where(eq(pools.inForce, true)),
  ]);
}
