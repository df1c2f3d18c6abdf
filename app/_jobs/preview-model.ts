import { knownFleet } from "../../db/fleet-known.ts";
import type { Store } from "../../db/store.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import { sentenceWords } from "../../lib/wording.ts";
import { lostCylinders } from "./lost-cylinders.ts";
import { type BandsPreview, previewBands } from "./preview-bands.ts";
import type { Act, JobControl } from "./progress.ts";

/** What saving an engine model would do; readings that would then be shown nowhere are warned of. */
export async function previewModel(
  store: Store,
  model: EngineModel,
  act: Pick<Act, "now">,
  control: JobControl = {},
): Promise<BandsPreview> {
  const known = await knownFleet(store, { today: null });
  const lost = await lostCylinders(store, {
    models: { changed: new Map([...known.models, [model.id, model]]), known: known.models },
    known,
    read: { models: [{ file: "", model }] },
    changedEngines: [],
  });
  const warnings = lost.map(({ words }) => `${sentenceWords(words)}.`);
  return { ...(await previewBands(store, { models: [model] }, act, control)), warnings };
}
