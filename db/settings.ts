import type { Settings } from "../lib/schema/settings.ts";
import type { Store } from "./store.ts";

export async function readSettings(store: Store): Promise<Settings> {
  throw new Error("body follows");
}

/** Changes some settings; the old values stay in the history. Throws (zod) for a value out of range. */
export async function changeSettings(
  store: Store,
  patch: Partial<Settings>,
  { by, at }: { by: string; at: string },
): Promise<Settings> {
  throw new Error("body follows");
}
