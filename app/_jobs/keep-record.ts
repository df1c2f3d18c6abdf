import type { Store } from "../../db/store.ts";
import { runningJobs, startJob } from "./job-registry.ts";
import { recordAnew, recordDue } from "./record-anew.ts";

/** Often enough that who looks after an import hardly waits, and a look costs next to nothing. */
const lookedEveryMs = 2_000;

/**
 * Keeps the track record up to date for as long as this process runs: looks every few seconds whether facts or settings
 * changed, by whatever process, and makes it anew once no other job runs. Returns at once.
 */
export function keepRecord(store: Store, clock: () => Date): void {
  let looking = false;
  /** What a record could not be made from: tried again only when that has changed. */
  let failed: string | null = null;
  const look = async () => {
    if (looking || runningJobs().length > 0) return;
    looking = true;
    try {
      const due = await recordDue(store);
      if (due === null || due === failed) return;
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
