"use server";

import { appStore } from "../../../db/app-store.ts";
import { standingModel } from "../../../db/engine-models.ts";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import { startJob } from "../../_jobs/job-registry.ts";
import { previewModel as preview } from "../../_jobs/preview-model.ts";
import { saveModel as save } from "../../_jobs/save-model.ts";
import { actingViewer } from "../acting.ts";
import { type Begun, notBegun } from "../asking/begun.ts";
import { type ModelDraft, modelDraftSchema, readModelDraft } from "./model-draft.ts";

/** What a person typed, and the model as it stood when the person began; null: a new one. */
export interface AskedModel {
  readonly draft: ModelDraft;
  readonly seen: EngineModel | null;
}

function read(draft: ModelDraft) {
  const parsed = modelDraftSchema.safeParse(draft);
  if (!parsed.success) return { ...notBegun, problem: "The form is not understood. Load the page again." };
  const result = readModelDraft(parsed.data);
  return result.ok ? result : { ...notBegun, problems: result.problems };
}

/** Begins to look at what a model, as it was typed, would do. */
export async function previewModel({ draft, seen }: AskedModel): Promise<Begun> {
  const asked = read(draft);
  if (!("ok" in asked)) return asked;
  const act = await actingViewer();
  if (typeof act === "string") return { ...notBegun, problem: act };
  const { model, warnings } = asked;
  const store = await appStore();
  if (seen === null && (await standingModel(store, model.id)) !== null) {
    const id = "There is an engine model of this id already. Change that one, or choose another.";
    return { ...notBegun, problems: { id } };
  }
  const job = startJob("preview", async (control) => {
    const told = await preview(store, model, act, control);
    return { ...told, warnings: [...warnings, ...told.warnings] };
  });
  return { ...notBegun, job };
}

/** Begins to keep a model as it was typed. */
export async function saveModel({ draft, seen }: AskedModel): Promise<Begun> {
  const asked = read(draft);
  return "ok" in asked ? begin(asked.model, seen) : asked;
}

/** Begins to retire a model as it stands, or to take it back into use. */
export async function retireModel(id: string, retired: boolean): Promise<Begun> {
  const seen = await standingModel(await appStore(), id);
  if (seen === null) return { ...notBegun, problem: `Engine model ${id} is not known any more.` };
  const { retired: _before, ...model } = seen;
  return begin(retired ? { ...model, retired } : model, seen);
}

async function begin(model: EngineModel, seen: EngineModel | null): Promise<Begun> {
  const act = await actingViewer();
  if (typeof act === "string") return { ...notBegun, problem: act };
  const store = await appStore();
  const job = startJob("save", (control) => save(store, { model, seen }, act, control));
  return { ...notBegun, kind: "save", job };
}
