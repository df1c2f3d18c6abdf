import { setImmediate as nextTurn } from "node:timers/promises";
import type { NotAssessed } from "./guarded.ts";
import type { Phase } from "./phases.ts";

/** How far a job is. A figure that does not apply to the phase is 0; a total that is not known, null. */
export interface Progress {
  readonly phase: Phase;
  /** Bytes of all files, while `keeping` and `reading`. */
  readonly bytes: number;
  readonly totalBytes: number | null;
  /** Rows read so far, of all files. */
  readonly rows: number;
  /** Units done, while `checking`, `gathering`, `fitting` and `assessing`. */
  readonly units: number;
  readonly totalUnits: number | null;
}

export interface JobControl {
  readonly onProgress?: (progress: Progress) => void;
  /** Aborting ends the job with the signal's reason; what it had begun is taken back. */
  readonly signal?: AbortSignal;
  /** Told at once of each unit that could not be assessed; the job goes on with the others. */
  readonly onNotAssessed?: (problem: NotAssessed) => void;
}

/** Who does it, and when: the clock is read by the caller. */
export interface Act {
  readonly by: string;
  readonly now: Date;
}

/** The act as the store writes it down. */
export const doerOf = ({ by, now }: Act): { by: string; at: string } => ({ by, at: now.toISOString() });

export const progressOf = (phase: Phase, more: Partial<Omit<Progress, "phase">> = {}): Progress => ({
  phase,
  bytes: 0,
  totalBytes: null,
  rows: 0,
  units: 0,
  totalUnits: null,
  ...more,
});

/** A page asked for meanwhile waits no longer than about this. */
const longestTurnMs = 25;

/**
 * A pause for loops that run for long: call it after each piece of work. It lets other work of the process go on when
 * the last pause is some time ago, and throws the signal's reason when the job was cancelled.
 */
export function breather(signal: AbortSignal | undefined): () => Promise<void> {
  let last = performance.now();
  return async () => {
    signal?.throwIfAborted();
    if (performance.now() - last < longestTurnMs) return;
    await nextTurn();
    last = performance.now();
    signal?.throwIfAborted();
  };
}
