import { isDeepStrictEqual } from "node:util";
import { depotOverviews } from "../../db/depot-overview.ts";
import { type DepotChange, depotSetups } from "../../db/depots.ts";
import { standingModels } from "../../db/engine-models.ts";
import { factUnits } from "../../db/fleet-known.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import type { DepotTold } from "../../db/workshop.ts";
import { type KnownNames, unknownNames } from "../../lib/plan/unknown-names.ts";
import type { FleetKnown } from "../../lib/plan/workshop-cautions.ts";
import { blankDepotSetup, buildersProblem, type DepotSetup } from "../../lib/schema/depot.ts";
import type { Workshop } from "../../lib/schema/workshop.ts";
import { asOfDate } from "./as-of.ts";
import { readWorkshopFile } from "./read-workshop.ts";

export async function knownNames(store: Store): Promise<KnownNames> {
  const [units, depots, models] = await Promise.all([factUnits(store), depotOverviews(store), standingModels(store)]);
  return {
    units: new Set(units),
    depots: new Set(depots.map(({ depot }) => depot)),
    engineModels: new Set(models.map(({ id }) => id)),
  };
}

/** What the cautions about prices and workshops ask of the fleet. */
export async function fleetKnown(store: Store, now: Date): Promise<FleetKnown> {
  const [units, depots, setups, settings] = await Promise.all([
    factUnits(store),
    depotOverviews(store),
    depotSetups(store),
    readSettings(store),
  ]);
  return {
    asOf: asOfDate(settings, now),
    units: new Set(units),
    depots: depots.map(({ depot }) => ({ depot, bays: setups.get(depot)?.setup.bays ?? null })),
  };
}

/** What a file would make of the store. */
export interface FileOfStore {
  readonly workshop: Workshop;
  /** The depots that it tells otherwise than they are told now. */
  readonly depots: readonly (DepotTold & { readonly before: DepotSetup })[];
  /** Repairs that it pins: they are choices of the plan, and are not taken from it here. */
  readonly pins: number;
}

/**
 * A file of prices and workshops beside what stands in the store; what it leaves out of a depot stays. A sentence: why it
 * cannot be taken.
 */
export async function fileOfStore(store: Store, text: string): Promise<FileOfStore | string> {
  const read = readWorkshopFile(text);
  if (!read.ok) return `The file is not usable: ${read.why}.`;
  const { pins, ...workshop } = read.workshop;
  const [unknown] = unknownNames({ ...workshop, pins: [] }, await knownNames(store));
  if (unknown !== undefined) return `The file is not usable: ${unknown.path.join(".")}: ${unknown.message}`;
  const setups = await depotSetups(store);
  const depots = Object.entries(workshop.depots).flatMap(([depot, told]) =>
    depotOfFile(depot, told, setups.get(depot)),
  );
  for (const { depot, setup } of depots) {
    const problem = buildersProblem(setup.builders, setup.technicians);
    if (problem !== null) return `The file is not usable: depots.${depot}.builders: ${problem}`;
  }
  return { workshop: { ...workshop, depots: {}, pins: [] }, depots, pins: pins.length };
}

function depotOfFile(
  depot: string,
  told: Workshop["depots"][string],
  change: DepotChange | undefined,
): FileOfStore["depots"] {
  const before = change?.setup ?? blankDepotSetup;
  const given = Object.entries(told).filter(([, value]) => value !== undefined);
  const setup: DepotSetup = { ...before, ...Object.fromEntries(given) };
  return isDeepStrictEqual(setup, before) ? [] : [{ depot, setup, before, after: change?.id ?? null }];
}
