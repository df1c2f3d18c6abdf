import { standingModels } from "../../../db/engine-models.ts";
import { stripDownsKept } from "../../../db/engines.ts";
import { remembered } from "../../../db/remembered.ts";
import type { Store } from "../../../db/store.ts";
import { type Call, callsOf } from "../../../lib/cause/calls.ts";

/** The calls of one engine model, the latest first. */
export interface ModelCalls {
  readonly engineModel: string;
  readonly name: string;
  readonly calls: readonly Call[];
}

/** Every call that a strip-down has answered, by engine model; models without one are left out. */
export const toldCalls = remembered("cause-calls", async (store: Store): Promise<readonly ModelCalls[]> => {
  const [stripDowns, models] = await Promise.all([stripDownsKept(store), standingModels(store)]);
  return models.flatMap((model) => {
    const calls = callsOf(
      stripDowns.filter(({ engineModel }) => engineModel === model.id),
      model,
    );
    return calls.length === 0 ? [] : [{ engineModel: model.id, name: model.name ?? model.id, calls }];
  });
});
