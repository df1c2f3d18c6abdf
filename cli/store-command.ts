import { openStore, type Store } from "../db/store.ts";
import { StoreError } from "../db/store-error.ts";
import { databaseFile } from "./project.ts";
import { Refusal } from "./refusal.ts";

/** The person asked to stop. */
export class Interrupted extends Error {
  override readonly name = "Interrupted";
  readonly status: number;

  constructor(signal: "SIGINT" | "SIGTERM") {
    super("Stopped: what was not finished was taken back.");
    this.status = signal === "SIGINT" ? 130 : 143;
  }
}

/**
 * Opens this machine's database for a piece of work and closes it. Ctrl-C and SIGTERM abort the work, which takes back
 * what it had begun; what stands in the way of the database is told in one sentence.
 */
export async function withStore<T>(work: (store: Store, signal: AbortSignal) => Promise<T>): Promise<T> {
  const controller = new AbortController();
  const stop = (signal: "SIGINT" | "SIGTERM") => controller.abort(new Interrupted(signal));
  process.on("SIGINT", stop).on("SIGTERM", stop);
  try {
    const store = await openStore(databaseFile(process.env));
    try {
      return await work(store, controller.signal);
    } finally {
      await store.close();
    }
  } catch (error) {
    if (error instanceof StoreError) throw new Refusal(error.message, 1);
    throw error;
  } finally {
    process.off("SIGINT", stop).off("SIGTERM", stop);
  }
}
