import type { Store } from "../../db/store.ts";
import { type JobView, runningJobs, startJob, subscribeToJob } from "./job-registry.ts";
import { recordAnew, recordDue } from "./record-anew.ts";

/** Often enough that who looks after an import hardly waits, and a look costs next to nothing. */
const lookedEveryMs = 2_000;
/** While people enter and correct, a record would be made in vain again and again: it waits until they have paused. */
const pauseMs = 300_000;
/** Who looks at it waits for it: then it is made as soon as nothing has just changed. */
const shortPauseMs = 3_000;
/** A page that shows that a record is due looks again every few seconds. */
const lookedAtMs = 10_000;
/** What made it fail may pass (a full disk, a busy file): tried again, each time after twice as long. */
const firstRetryMs = 60_000;
const longestRetryMs = 3_600_000;

/** How the track record stands, as far as this process knows. */
export type RecordStanding =
  | { readonly state: "current" }
  | { readonly state: "making" }
  /** Due, but changes have not paused yet, or another job runs. */
  | { readonly state: "waiting"; readonly until: "pause" | "job-ended" }
  /** `problem`: a sentence for a person; `again`: when it is tried again, unless facts or settings change before. */
  | { readonly state: "failed"; readonly problem: string; readonly again: Date };

interface Upkeep {
  looking: boolean;
  /** What a record is due for, and since when nothing has changed. */
  waiting: { readonly due: string; readonly since: number } | null;
  /** When somebody last asked for the record; 0: never. */
  lookedAt: number;
  /** What a record could not be made from, and how often that was tried. */
  failure: { readonly due: string; readonly times: number; readonly again: number; readonly problem: string } | null;
}

const holder = globalThis as { borecastUpkeep?: WeakMap<Store, Upkeep> };
/** On globalThis because the bundler may load this file once for the server's start and once for pages. */
function upkeepOf(store: Store): Upkeep {
  holder.borecastUpkeep ??= new WeakMap();
  const known = holder.borecastUpkeep.get(store) ?? { looking: false, waiting: null, lookedAt: 0, failure: null };
  holder.borecastUpkeep.set(store, known);
  return known;
}

/**
 * Keeps the track record up to date for as long as this process runs: looks every few seconds whether facts or settings
 * changed, by whatever process, and makes it anew once that has paused, or somebody looks at it, and no other job runs.
 * Returns at once.
 */
export function keepTrackRecordCurrent(store: Store, clock: () => Date): void {
  setInterval(() => {
    makeRecordIfDue(store, clock).catch((error: unknown) => {
      console.error("The track record could not be looked at.", error);
    });
  }, lookedEveryMs).unref();
}

/** One look: starts the job that makes the record where it is time to, and gives its id; null: it is not time. */
export async function makeRecordIfDue(store: Store, clock: () => Date): Promise<string | null> {
  const upkeep = upkeepOf(store);
  if (upkeep.looking || runningJobs().length > 0) return null;
  upkeep.looking = true;
  try {
    const due = await recordDue(store);
    const now = clock().getTime();
    if (due === null) {
      upkeep.waiting = null;
      upkeep.failure = null;
      return null;
    }
    if (upkeep.waiting?.due !== due) upkeep.waiting = { due, since: now };
    const pause = now - upkeep.lookedAt < lookedAtMs ? shortPauseMs : pauseMs;
    if (now - upkeep.waiting.since < pause) return null;
    if (upkeep.failure?.due === due && now < upkeep.failure.again) return null;
    // Another job may have begun while the store was asked.
    if (runningJobs().length > 0) return null;
    const job = startJob("record", (control) => recordAnew(store, { by: "Borecast", now: clock() }, control));
    subscribeToJob(job, (view) => noteEnd(upkeep, due, view, clock));
    return job;
  } finally {
    upkeep.looking = false;
  }
}

function noteEnd(upkeep: Upkeep, due: string, { state, error }: JobView, clock: () => Date): void {
  if (state === "done") upkeep.failure = null;
  if (state !== "failed" && state !== "cancelled") return;
  const times = upkeep.failure?.due === due ? upkeep.failure.times + 1 : 1;
  const again = clock().getTime() + Math.min(firstRetryMs * 2 ** (times - 1), longestRetryMs);
  upkeep.failure = { due, times, again, problem: error ?? "It was ended before it was done." };
}

/** Says that somebody looks at the record now: one that is due is made as soon as nothing has just changed. */
export function askForRecord(store: Store, now: Date): void {
  upkeepOf(store).lookedAt = now.getTime();
}

/** How the record stands, for who looks at it. */
export async function recordStanding(store: Store): Promise<RecordStanding> {
  const due = await recordDue(store);
  if (due === null) return { state: "current" };
  const running = runningJobs();
  if (running.some(({ kind }) => kind === "record")) return { state: "making" };
  const { failure } = upkeepOf(store);
  if (failure?.due === due) return { state: "failed", problem: failure.problem, again: new Date(failure.again) };
  return { state: "waiting", until: running.length > 0 ? "job-ended" : "pause" };
}
