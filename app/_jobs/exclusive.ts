import type { Store } from "../../db/store.ts";

const holder = globalThis as { borecastWriters?: WeakMap<Store, Promise<unknown>> };

/**
 * One after the other: jobs that make derived values would overwrite each other's. Jobs of this process only; what two
 * processes leave undone between them, the next start makes good (`reassessDay`).
 */
export function exclusively<T>(store: Store, work: () => Promise<T>): Promise<T> {
  holder.borecastWriters ??= new WeakMap();
  const before = holder.borecastWriters.get(store) ?? Promise.resolve();
  const run = before.then(work);
  holder.borecastWriters.set(
    store,
    run.catch(() => undefined),
  );
  return run;
}
