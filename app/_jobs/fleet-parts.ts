import { unitsConnectedTo } from "../../db/connected.ts";
import { fleetFacts } from "../../db/facts.ts";
import type { Store } from "../../db/store.ts";
import type { FleetFacts, IsoDate } from "../../lib/schema/facts.ts";
import type { MeterUnit } from "../../lib/schema/words.ts";
import { indexFleet } from "../../lib/sealing/seal.ts";
import type { FleetIndex } from "../../lib/sealing/types.ts";
import { type FactsChange, laidOver } from "./facts-change.ts";

const unitsAtATime = 25;

export interface FleetPart {
  /** All units of the part, also those that nothing is known of any more. Ascending. */
  readonly units: readonly string[];
  readonly index: FleetIndex;
}

/**
 * The facts of units, some units at a time with all that are connected with them over shared engines: no engine reaches from one part
 * into another. Each unit comes once.
 */
export async function* factsInParts(
  store: Store,
  units: readonly string[],
): AsyncGenerator<{
  /** Also those that nothing is known of any more. Ascending. */
  readonly units: readonly string[];
  readonly facts: FleetFacts;
}> {
  const waiting = new Set(units);
  while (waiting.size > 0) {
    const some = [...waiting].slice(0, unitsAtATime);
    const connected = await unitsConnectedTo(store, some);
    for (const unit of connected) waiting.delete(unit);
    yield { units: connected, facts: await fleetFacts(store, { units: connected }) };
  }
}

/**
 * The units, and all that are connected with them over shared engines, in parts that can be indexed by themselves: no
 * engine reaches from one part into another. Each unit comes once. With a `change`, as they would be with it.
 */
export async function* fleetParts(
  store: Store,
  units: readonly string[],
  {
    asOf,
    usualMeterUnits,
    change,
  }: {
    readonly asOf: IsoDate;
    readonly usualMeterUnits: ReadonlyMap<string, MeterUnit>;
    readonly change?: FactsChange | undefined;
  },
): AsyncGenerator<FleetPart> {
  for await (const part of factsInParts(store, units)) {
    yield { units: part.units, index: indexFleet(laidOver(part.facts, change), { asOf, usualMeterUnits }) };
  }
}
