import { AssessmentsLeft } from "../app/_jobs/assessments-left.ts";
import { JobError } from "../app/_jobs/job-registry.ts";
import { openStore, type Store } from "../db/store.ts";
import { StoreError } from "../db/store-error.ts";
import { databaseFile } from "./project.ts";
import { Refusal } from "./refusal.ts";

/** The person asked to stop. */
export class Interrupted extends Error {
  override readonly name = "Interrupted";
  readonly status: number;

  constructor(status: number, message = "Stopped: what was not finished was taken back.") {
    super(message);
    this.status = status;
  }
}

/**
 * Opens this machine's database for a piece of work and closes it. Ctrl-C and SIGTERM abort the work, which takes back
 * what it had begun; what stands in the way of the database is told in one sentence.
 */
export async function withStore<T>(work: (store: Store, signal: AbortSignal) => Promise<T>): Promise<T> {
  const controller = new AbortController();
  const stop = (signal: "SIGINT" | "SIGTERM") => controller.abort(new Interrupted(signal === "SIGINT" ? 130 : 143));
  process.on("SIGINT", stop).on("SIGTERM", stop);
  try {
    const store = await openStore(databaseFile(process.env));
    try {
      return await work(store, controller.signal);
    } finally {
      await store.close();
    }
  } catch (error) {
    throw forTerminal(error);
  } finally {
    process.off("SIGINT", stop).off("SIGTERM", stop);
  }
}

const noRoom = ["ENOSPC", "EDQUOT"];

/** What the person at the terminal can put right becomes a sentence, and so does what stands all the same. */
function forTerminal(error: unknown): unknown {
  if (error instanceof AssessmentsLeft) {
    const { cause, message } = error;
    if (cause instanceof Interrupted) return new Interrupted(cause.status, message);
    const reason = forTerminal(cause);
    return reason instanceof Refusal ? new Refusal(`${reason.message} ${message}`, 1) : error;
  }
  if (error instanceof StoreError || error instanceof JobError) return new Refusal(error.message);
  const { code } = error as NodeJS.ErrnoException;
  if (code !== undefined && noRoom.includes(code)) {
    return new Refusal("The disk is full: the files could not be read into the database. Nothing was taken.");
  }
  return error;
}
