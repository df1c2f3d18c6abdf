import type { Store } from "../../db/store.ts";
import { type JobView, runningJobs, startJob, subscribeToJob } from "./job-registry.ts";
import type { JobControl } from "./progress.ts";

/** Often enough that who looks after an import hardly waits, and a look costs next to nothing. */
const lookedEveryMs = 2_000;
/** While people enter and correct, it would be made in vain again and again: it waits until they have paused. */
const pauseMs = 300_000;
/** Who looks at it waits for it: then it is made as soon as nothing has just changed. */
const shortPauseMs = 3_000;
/** A page that shows that something is due looks again every few seconds. */
const lookedAtMs = 10_000;
/** What made it fail may pass (a full disk, a busy file): tried again, each time after twice as long. */
const firstRetryMs = 60_000;
const longestRetryMs = 3_600_000;

/** Jobs that it waits for. A bridge only reads what is kept of two budgets, for some seconds up to minutes. */
const jobsAhead = (): readonly JobView[] => runningJobs().filter(({ kind }) => kind !== "bridge");

/** How what is kept up stands, as far as this process knows. */
export type UpkeepStanding =
  | { readonly state: "current" }
  | { readonly state: "making" }
  /** Due, but changes have not paused yet, another job runs, or the reports that it is made from are yet to be made. */
  | { readonly state: "waiting"; readonly until: "pause" | "job-ended" | "reports" }
  /** `problem`: a sentence for a person; `again`: when it is tried again, unless what it is made from changes before. */
  | { readonly state: "failed"; readonly problem: string; readonly again: Date };

/** Something that is made of the store, kept, and to be made anew where the store has changed. */
export interface Kept {
  /** The kind of its job. */
  readonly kind: string;
  /** What it is called in a log: "The track record". */
  readonly title: string;
  /** What it is to be made from, where that is not what it was made from; null: it is up to date. */
  readonly due: (store: Store) => Promise<string | null>;
  /** Whether the reports that it is made from are those of today's facts and day; left out: it is made from none. */
  readonly isReady?: (store: Store) => Promise<boolean>;
  readonly make: (store: Store, now: Date, control: JobControl) => Promise<unknown>;
}

interface State {
  looking: boolean;
  /** What it is due for, and since when nothing has changed. */
  waiting: { readonly due: string; readonly since: number } | null;
  /** When somebody last asked for it; 0: never. */
  lookedAt: number;
  /** What it could not be made from, and how often that was tried. */
  failure: { readonly due: string; readonly times: number; readonly again: number; readonly problem: string } | null;
}

const holder = globalThis as { borecastUpkeep?: WeakMap<Store, Map<string, State>> };
/** On globalThis because the bundler may load this file once for the server's start and once for pages. */
function stateOf(store: Store, kind: string): State {
  holder.borecastUpkeep ??= new WeakMap();
  const ofStore = holder.borecastUpkeep.get(store) ?? new Map<string, State>();
  holder.borecastUpkeep.set(store, ofStore);
  const known = ofStore.get(kind) ?? { looking: false, waiting: null, lookedAt: 0, failure: null };
  ofStore.set(kind, known);
  return known;
}

/**
 * Keeps something up to date for as long as this process runs: looks every few seconds whether what it is made from
 * changed, by whatever process, and makes it anew once that has paused, or somebody looks at it, and no other job runs.
 * Returns at once.
 */
export function keepUp(kept: Kept, store: Store, clock: () => Date): void {
  setInterval(() => {
    makeIfDue(kept, store, clock).catch((error: unknown) => {
      console.error(`${kept.title} could not be looked at.`, error);
    });
  }, lookedEveryMs).unref();
}

/** One look: starts the job that makes it where it is time to, and gives its id; null: it is not time. */
export async function makeIfDue(kept: Kept, store: Store, clock: () => Date): Promise<string | null> {
  const state = stateOf(store, kept.kind);
  if (state.looking || jobsAhead().length > 0) return null;
  state.looking = true;
  try {
    const due = await kept.due(store);
    const now = clock().getTime();
    if (due === null) {
      state.waiting = null;
      state.failure = null;
      return null;
    }
    if (state.waiting?.due !== due) state.waiting = { due, since: now };
    const pause = now - state.lookedAt < lookedAtMs ? shortPauseMs : pauseMs;
    if (now - state.waiting.since < pause) return null;
    if (state.failure?.due === due && now < state.failure.again) return null;
    if (!((await kept.isReady?.(store)) ?? true)) return null;
    // Another job may have begun while the store was asked.
    if (jobsAhead().length > 0) return null;
    const job = startJob(kept.kind, (control) => kept.make(store, clock(), control));
    subscribeToJob(job, (view) => noteEnd(state, due, view, clock));
    return job;
  } finally {
    state.looking = false;
  }
}

function noteEnd(state: State, due: string, { state: ended, error }: JobView, clock: () => Date): void {
  if (ended === "done") state.failure = null;
  if (ended !== "failed" && ended !== "cancelled") return;
  const times = state.failure?.due === due ? state.failure.times + 1 : 1;
  const again = clock().getTime() + Math.min(firstRetryMs * 2 ** (times - 1), longestRetryMs);
  state.failure = { due, times, again, problem: error ?? "It was ended before it was done." };
}

/** Says that somebody looks at it now: what is due is made as soon as nothing has just changed. */
export function askFor({ kind }: Kept, store: Store, now: Date): void {
  stateOf(store, kind).lookedAt = now.getTime();
}

/** How it stands, for who looks at it. */
export async function standingOfKept({ kind, due: dueOf, isReady }: Kept, store: Store): Promise<UpkeepStanding> {
  const due = await dueOf(store);
  if (due === null) return { state: "current" };
  const running = jobsAhead();
  if (running.some((job) => job.kind === kind)) return { state: "making" };
  const { failure } = stateOf(store, kind);
  if (failure?.due === due) return { state: "failed", problem: failure.problem, again: new Date(failure.again) };
  if (running.length > 0) return { state: "waiting", until: "job-ended" };
  return { state: "waiting", until: ((await isReady?.(store)) ?? true) ? "pause" : "reports" };
}
