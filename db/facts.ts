import type { FleetFacts } from "../lib/schema/facts.ts";
import type { KnownFleet } from "../lib/schema/intake.ts";
import type { Store } from "./store.ts";

/** The facts that stand, of the whole fleet or of `units`; models and depots always all. Always in the same order. */
export async function fleetFacts(store: Store, { units }: { units?: readonly string[] } = {}): Promise<FleetFacts> {
  throw new Error("body follows");
}

/** What intake needs to judge rows; `today` as KnownFleet has it. */
export async function knownFleet(store: Store, { today }: { today: string | null }): Promise<KnownFleet> {
  throw new Error("body follows");
}

/** `units` and all that shared an engine with them, directly or over others. Ascending. */
export async function unitsConnectedTo(store: Store, units: readonly string[]): Promise<string[]> {
  throw new Error("body follows");
}

/** Units that an import says anything of, also over their depot or engine model. Ascending. */
export async function touchedUnits(store: Store, importId: string): Promise<string[]> {
  throw new Error("body follows");
}

/** Every unit that any visible fact names. Ascending. */
export async function factUnits(store: Store): Promise<string[]> {
  throw new Error("body follows");
}

export interface FactCounts {
  readonly units: number;
  readonly tests: number;
  readonly readings: number;
  readonly repairs: number;
  readonly meterReadings: number;
  readonly checks: number;
  readonly engineModels: number;
}
export async function countFacts(store: Store): Promise<FactCounts> {
  throw new Error("body follows");
}
