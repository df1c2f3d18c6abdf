import type { KeptPool } from "./schema-derived.ts";
import type { Store } from "./store.ts";

/** The pools in force, as they were put. */
export async function poolsInForce<P extends KeptPool>(store: Store): Promise<P[]> {
  throw new Error("body follows");
}

/** From now on exactly these are in force. One with the fingerprint of its predecessor stays that version. */
export async function putPoolsInForce(store: Store, pools: readonly KeptPool[], { at }: { at: string }): Promise<void> {
  throw new Error("body follows");
}
