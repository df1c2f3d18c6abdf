import type { Store } from "../../db/store.ts";
import { startJob } from "./job-registry.ts";
import { reassessDay } from "./reassess-day.ts";

const anHourMs = 3_600_000;

/**
 * Keeps the fleet told for today for as long as this process runs: looks now and every hour whether a day has passed or
 * an ended process left something undone. Returns at once; the work is a job like any other.
 */
export function keepCurrent(store: Store, clock: () => Date): void {
  const look = () => {
    startJob("day", (control) => reassessDay(store, { by: "Borecast", now: clock() }, control));
  };
  look();
  setInterval(look, anHourMs).unref();
}
