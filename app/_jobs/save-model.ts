import { standingModel } from "../../db/engine-models.ts";
import type { Store } from "../../db/store.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import { commitFormImport } from "./commit-form-import.ts";
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
  const { id } = model;
  const meanwhile = async () => {
    const standing = await standingModel(store, id);
    if (standing === null && seen !== null) return `Engine model ${id} was taken back meanwhile. Nothing was kept.`;
    if (standing !== null && seen === null)
      return `There is an engine model ${id} already. Change that one, or choose another id.`;
    return JSON.stringify(standing) === JSON.stringify(seen)
      ? null
      : `Engine model ${id} was changed meanwhile. Nothing was kept; open its page anew and change it there.`;
  };
  return commitFormImport(store, { title: `Engine model ${id}`, models: [model] }, { ...act, meanwhile }, control);
}
