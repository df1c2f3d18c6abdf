import { randomUUID } from "node:crypto";
import { StoreError } from "../../db/store-error.ts";
import type { NotAssessed } from "./guarded.ts";
import type { JobControl, Progress } from "./progress.ts";

/** `cancelled`: ended because somebody asked; what it had begun was taken back, but for an import already in. */
export type JobState = "running" | "done" | "failed" | "cancelled";

/** A job as others see it. All of it can be sent as JSON. */
export interface JobView {
  readonly id: string;
  /** What the job does: `stage`, `commit`, `undo`, `discard`, `rebuild`, `day` … */
  readonly kind: string;
  readonly state: JobState;
  readonly progress: Progress | null;
  /** What the job's function gave; null before it is done. */
  readonly result: unknown;
  /** One sentence for a person; null: nothing failed. */
  readonly error: string | null;
}

interface Job {
  view: JobView;
  readonly controller: AbortController;
  readonly listeners: Set<(view: JobView) => void>;
}

/** Ended jobs stay to be asked for, the last so many. */
const endedKept = 50;

const holder = globalThis as { borecastJobs?: Map<string, Job> };
/** On globalThis because the bundler may load this file once for pages and once for routes. */
const jobs = (): Map<string, Job> => {
  holder.borecastJobs ??= new Map();
  return holder.borecastJobs;
};

/** Something that went wrong and that the person can understand; its message is a whole sentence. */
export class JobError extends Error {
  override readonly name = "JobError";
}

/**
 * Starts a job and gives its id at once. `work` gets the control to hand on. It runs on in this process when nobody
 * listens any more; a failure is kept as a sentence and, unless it is one of ours, told on the console.
 */
export function startJob(kind: string, work: (control: Required<JobControl>) => Promise<unknown>): string {
  const id = randomUUID();
  const job: Job = {
    view: { id, kind, state: "running", progress: null, result: null, error: null },
    controller: new AbortController(),
    listeners: new Set(),
  };
  jobs().set(id, job);
  const { signal } = job.controller;
  const control = {
    signal,
    onProgress: (progress: Progress) => tell(job, { progress }),
    // The sentence reaches people with what the job gives; what lies behind it is for the log.
    onNotAssessed: ({ words, cause }: NotAssessed) => console.error(words, cause),
  };
  // Begins in a later turn, so that the caller can subscribe before the first news.
  Promise.resolve()
    .then(() => work(control))
    .then(
      (result) => tell(job, { state: "done", result }),
      (error: unknown) => {
        if (signal.aborted) tell(job, { state: "cancelled" });
        else tell(job, { state: "failed", error: sentenceOf(error) });
      },
    )
    .finally(forgetOldest);
  return id;
}

function tell(job: Job, news: Partial<JobView>) {
  job.view = { ...job.view, ...news };
  for (const listener of job.listeners) listener(job.view);
  if (job.view.state !== "running") job.listeners.clear();
}

function sentenceOf(error: unknown): string {
  if (error instanceof StoreError) return error.message;
  if (error instanceof JobError) {
    if (error.cause !== undefined) console.error(error.cause);
    return error.message;
  }
  console.error(error);
  return "Something went wrong that Borecast did not foresee; nothing was half done. The server's log says more.";
}

function forgetOldest() {
  const ended = [...jobs().values()].filter((job) => job.view.state !== "running");
  for (const job of ended.slice(0, -endedKept)) jobs().delete(job.view.id);
}

export const jobView = (id: string): JobView | null => jobs().get(id)?.view ?? null;

/** Jobs that run now, the oldest first. */
export const runningJobs = (): readonly JobView[] =>
  [...jobs().values()].map((job) => job.view).filter((view) => view.state === "running");

/** Asks a job to end; false: there is none that runs under this id. It ends at its next pause. */
export function cancelJob(id: string): boolean {
  const job = jobs().get(id);
  if (job?.view.state !== "running") return false;
  job.controller.abort(new JobError("Cancelled."));
  return true;
}

/**
 * Calls `listener` with the job as it is, then with each news, the end being the last. Gives what ends the
 * subscription; null: no such job.
 */
export function subscribeToJob(id: string, listener: (view: JobView) => void): (() => void) | null {
  const job = jobs().get(id);
  if (job === undefined) return null;
  listener(job.view);
  if (job.view.state === "running") job.listeners.add(listener);
  return () => job.listeners.delete(listener);
}
