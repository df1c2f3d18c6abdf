import { issuedBefore } from "../../../db/assessments.ts";
import { standingModels } from "../../../db/engine-models.ts";
import { stripDownsKept } from "../../../db/engines.ts";
import { remembered } from "../../../db/remembered.ts";
import type { Store } from "../../../db/store.ts";
import { type Call, callsOf, type IssuedCall } from "../../../lib/cause/calls.ts";
import type { UnitAssessment } from "../../../lib/schema/assessment.ts";
import type { StripDown } from "../../../lib/schema/strip-down.ts";

/** The calls of one engine model, the latest first. */
export interface ModelCalls {
  readonly engineModel: string;
  readonly name: string;
  readonly calls: readonly Call[];
}

/** Every call that a strip-down has answered, by engine model; models without one are left out. */
export const toldCalls = remembered("cause-calls", async (store: Store): Promise<readonly ModelCalls[]> => {
  const [stripDowns, models] = await Promise.all([stripDownsKept(store), standingModels(store)]);
  const issued = await issuedCalls(store, stripDowns);
  return models.flatMap((model) => {
    const calls = callsOf(
      stripDowns.filter(({ engineModel }) => engineModel === model.id),
      model,
      (one) => issued.get(one) ?? null,
    );
    return calls.length === 0 ? [] : [{ engineModel: model.id, name: model.name ?? model.id, calls }];
  });
});

/** What the store issued of each before the day on which it was opened, of the engine that was opened. */
async function issuedCalls(
  store: Store,
  stripDowns: readonly StripDown[],
): Promise<ReadonlyMap<StripDown, IssuedCall>> {
  const issued = new Map<StripDown, IssuedCall>();
  for (const one of stripDowns) {
    const row = await issuedBefore(store, one.unit, one.date);
    const of = row?.assessment.cylinders.find(({ cylinder }) => cylinder === one.cylinder);
    if (row == null || of === undefined || of.causes.length === 0 || !isOfEngine(row.assessment, one)) continue;
    const { topEnd, bottomEnd, testSetUp, causes } = of;
    issued.set(one, { asOf: row.asOf, topEnd, bottomEnd, testSetUp, causes });
  }
  return issued;
}

const isOfEngine = (
  { engineModel, engineSerial }: Pick<UnitAssessment, "engineModel" | "engineSerial">,
  one: StripDown,
): boolean => engineModel === one.engineModel && (engineSerial === null || one.engine.startsWith(engineSerial));
