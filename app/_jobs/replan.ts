import type { Store } from "../../db/store.ts";
import { runningJobs, startJob, subscribeToJob } from "./job-registry.ts";
import { planAnew, planBasis } from "./plan-anew.ts";
import type { Act } from "./progress.ts";
import { inWorker } from "./worker/in-worker.ts";
import type { RunTask } from "./worker/tasks.ts";

const holder = globalThis as { borecastReplans?: Map<string, string> };
/** What there was to plan as each job that still runs was asked for. On globalThis: the bundler may load this file more than once. */
function askedWith(): Map<string, string> {
  holder.borecastReplans ??= new Map();
  const running = new Set(runningJobs().map(({ id }) => id));
  for (const id of holder.borecastReplans.keys()) if (!running.has(id)) holder.borecastReplans.delete(id);
  return holder.borecastReplans;
}

/**
 * Begins to make the plan anew of what is known and chosen by now, and gives its job. One that runs and was asked for with the same is
 * that job. One that began before something was chosen or told would leave that out: the new job waits for its end, then plans again.
 */
export async function startReplan(store: Store, act: Act, run: RunTask = inWorker()): Promise<string> {
  const basis = await planBasis(store);
  const asked = askedWith();
  const running = runningJobs().findLast(({ kind }) => kind === "plan");
  if (running !== undefined && asked.get(running.id) === basis) return running.id;
  const job = startJob("plan", async (control) => {
    if (running !== undefined) await endOf(running.id, control.signal);
    return await planAnew(store, act, control, run);
  });
  asked.set(job, basis);
  return job;
}

/** Resolves as a job has ended, however it did; rejects with the signal's reason. */
function endOf(job: string, signal: AbortSignal): Promise<void> {
  return new Promise((resolve, reject) => {
    signal.addEventListener("abort", () => reject(signal.reason), { once: true });
    const stop = subscribeToJob(job, ({ state }) => {
      if (state !== "running") resolve();
    });
    if (stop === null) resolve();
  });
}
