import type { Store } from "./store.ts";

/** Deletes what can be made again from the facts: reports, fleet rows, engines; pools go out of force. Histories stay. */
export async function clearDerived(store: Store): Promise<void> {
  throw new Error("body follows");
}
