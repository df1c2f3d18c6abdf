import type { Store } from "../../db/store.ts";
import { runningJobs, startJob } from "./job-registry.ts";
import { recordAnew, recordDue } from "./record-anew.ts";

/** Often enough that who looks after an import hardly waits, and a look costs next to nothing. */
const lookedEveryMs = 2_000;
/** While people enter and correct, a record would be made in vain again and again: it waits until they have paused. */
const pauseMs = 30_000;

/**
 * Keeps the track record up to date for as long as this process runs: looks every few seconds whether facts or settings
 * changed, by whatever process, and makes it anew once that has paused and no other job runs. Returns at once.
 */
export function keepRecord(store: Store, clock: () => Date): void {
  let looking = false;
  /** What a record could not be made from: tried again only when that has changed. */
  let failed: string | null = null;
  /** What a record is due for, and since when nothing has changed. */
  let waiting: { readonly due: string; readonly since: number } | null = null;
  const look = async () => {
    if (looking || runningJobs().length > 0) return;
    looking = true;
    try {
      const due = await recordDue(store);
      if (due === null || due === failed) return;
      const now = clock().getTime();
      if (waiting?.due !== due) waiting = { due, since: now };
      if (now - waiting.since < pauseMs) return;
      startJob("record", async (control) => {
        try {
          return await recordAnew(store, { by: "Borecast", now: clock() }, control);
        } catch (error) {
          failed = due;
          throw error;
        }
      });
    } catch (error) {
      console.error("The track record could not be looked at.", error);
    } finally {
      looking = false;
    }
  };
  setInterval(() => void look(), lookedEveryMs).unref();
}
