import type { Store } from "./store.ts";

/**
 * A query that is built and prepared once for each store, and run with other values each time: building a statement takes
 * longer than SQLite takes to find a unit by its key. Its values stand in it as placeholders.
 */
export function preparedFor<P>(build: (store: Store) => P): (store: Store) => P {
  const kept = new WeakMap<Store, P>();
  return (store) => {
    const known = kept.get(store);
    if (known !== undefined) return known;
    const prepared = build(store);
    kept.set(store, prepared);
    return prepared;
  };
}
