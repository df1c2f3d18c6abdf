import { eq } from "drizzle-orm";
import { noteNoCourses } from "./course-news.ts";
import type { Store } from "./store.ts";

/**
 * Deletes what can be made again from the facts: reports, fleet rows, engines and their fittings, what units are
 * compared by, the track record; pools go out of force. What was issued once stays: the history of assessments and the versions of pools.
 */
export async function clearDerived(store: Store, { at }: { at: string }): Promise<void> {
  const { reports, fleetRows, engines, pools } = store;
  const { wearCourses, testerCourses, modelComparisons, testerComparisons, trackRecords, trackCases } = store;
  await store.atomically((q) => [
    q.delete(reports),
    q.delete(fleetRows),
    q.delete(engines),
    q.delete(wearCourses),
    q.delete(testerCourses),
    q.delete(modelComparisons),
    q.delete(testerComparisons),
    q.delete(trackRecords),
    q.delete(trackCases),
    q.update(pools).set({ inForce: false, replacedAt: at }).where(eq(pools.inForce, true)),
  ]);
  noteNoCourses(store);
}
