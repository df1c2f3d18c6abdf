import type { Store } from "../../db/store.ts";
import { tellDemoDepots } from "./demo-house.ts";
import { startJob } from "./job-registry.ts";
import { reassessDay } from "./reassess-day.ts";
import { sweepAbandoned } from "./sweep-abandoned.ts";

const anHourMs = 3_600_000;
/** A killed process may be there for some seconds more, as long as the system clears it away. */
const endedWithinMs = 10_000;

/**
 * Keeps the fleet told for today for as long as this process runs: looks now, once more soon and every hour whether a day has passed, or
 * an ended process left something undone or half read. A demo fleet of an older version is given what it now has. Returns at once; the work is a job like any other.
 */
export function keepCurrent(store: Store, clock: () => Date, demoFolder: string): void {
  const look = () => {
    startJob("day", async (control) => {
      const now = clock();
      await tellDemoDepots(store, demoFolder, { now });
      await sweepAbandoned(store, now);
      return await reassessDay(store, { by: "Borecast", now }, control);
    });
  };
  look();
  setTimeout(look, endedWithinMs).unref();
  setInterval(look, anHourMs).unref();
}
