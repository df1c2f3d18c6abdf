import type { Schema } from "./schema.ts";
import type { Store } from "./store.ts";

export type EngineRow = Schema["engines"]["$inferSelect"];
export type FittingRow = Schema["fittings"]["$inferSelect"];
export type EngineWithFittings = EngineRow & { readonly fittings: readonly Omit<FittingRow, "engine" | "place">[] };

/** Replaces the engines that are or were in `units` by `engines`. */
export async function replaceEngines(
  store: Store,
  { units, engines }: { units: readonly string[]; engines: readonly EngineWithFittings[] },
): Promise<void> {
  throw new Error("body follows");
}

export async function enginesOf(store: Store, unit: string): Promise<EngineWithFittings[]> {
  throw new Error("body follows");
}
