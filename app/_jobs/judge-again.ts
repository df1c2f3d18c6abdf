import { chunks } from "../../db/chunks.ts";
import { knownFleet } from "../../db/fleet-known.ts";
import { stagedModels, stagedRows, stagedUnits } from "../../db/staged-rows.ts";
import type { Store } from "../../db/store.ts";
import { judgeUnit } from "../../lib/intake/judge-unit.ts";
import { unitCollector, unitRowKinds } from "../../lib/intake/unit-rows.ts";
import { words } from "../../lib/intake/words.ts";
import { knownBefore } from "./known-before.ts";
import { breather, type JobControl } from "./progress.ts";

const unitsAtATime = 50;

/**
 * Whether rows of a staged import, judged when they were read, still hold beside what is known now, by the rules that
 * need it (meter unit, meter order, cylinders, engine model). Gives the first that does not as file, place and reason;
 * null: all hold.
 */
export async function noLongerHolds(
  store: Store,
  importId: string,
  { takeChanges }: { readonly takeChanges: boolean },
  { signal }: JobControl,
): Promise<string | null> {
  const breathe = breather(signal);
  const known = (await knownFleet(store, { today: null })).models;
  const own = (await stagedModels(store, importId)).map((model) => [model.id, model] as const);
  const models = { changed: new Map([...known, ...own]), known: new Map([...own, ...known]) };
  for (const units of chunks(await stagedUnits(store, importId), unitsAtATime)) {
    const staged = await stagedRows(store, importId, { units, takeChanges });
    const before = await knownBefore(store, units);
    const byUnit = unitCollector();
    for (const kind of unitRowKinds) for (const row of staged[kind]) byUnit.add(kind, row);
    for (const rows of byUnit.all()) {
      for (const { engineModel, file } of [...rows.units, ...rows.tests]) {
        if (engineModel !== null && !models.changed.has(engineModel)) {
          return `${file}: ${words.modelUnknown(engineModel, [...models.changed.keys()])}`;
        }
      }
      const { issues, withChanges } = judgeUnit(rows, before.get(rows.unit) ?? null, models);
      const refused = issues.find((issue) => issue.severity === "refused");
      if (refused !== undefined) return `${refused.file}, ${refused.words}`;
      if (!takeChanges && withChanges.size > 0) return words.onlyWithChanges(rows.unit);
      await breathe();
    }
  }
  return null;
}
