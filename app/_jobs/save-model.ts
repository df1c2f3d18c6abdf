import { standingModel } from "../../db/engine-models.ts";
import type { Store } from "../../db/store.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import { commitFormImport } from "./commit-form-import.ts";
import { JobError } from "./job-registry.ts";
import type { Act, JobControl } from "./progress.ts";

/**
 * Keeps an engine model as a person wrote it. `seen`: the model as it stood when the person began, null for a new one;
 * where it stands otherwise now, nothing is kept and a `JobError` says so.
 */
export async function saveModel(
  store: Store,
  { model, seen }: { readonly model: EngineModel; readonly seen: EngineModel | null },
  act: Act,
  control: JobControl = {},
) {
  const standing = await standingModel(store, model.id);
  if (standing === null && seen !== null) {
    throw new JobError(`Engine model ${model.id} was taken back meanwhile. Nothing was kept.`);
  }
  if (standing !== null && seen === null) {
    throw new JobError(`There is an engine model ${model.id} already. Change that one, or choose another id.`);
  }
  if (JSON.stringify(standing) !== JSON.stringify(seen)) {
    throw new JobError(
      `Engine model ${model.id} was changed meanwhile. Nothing was kept; open its page anew and change it there.`,
    );
  }
  return commitFormImport(store, { title: `Engine model ${model.id}`, models: [model] }, act, control);
}
