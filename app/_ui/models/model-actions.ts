"use server";

import { z } from "zod";
import { appStore } from "../../../db/app-store.ts";
import { standingModel } from "../../../db/engine-models.ts";
import { type EngineModel, engineModelSchema } from "../../../lib/schema/engine-model.ts";
import { startJob } from "../../_jobs/job-registry.ts";
import { previewModel as preview } from "../../_jobs/preview-model.ts";
import { saveModel as save } from "../../_jobs/save-model.ts";
import { actingViewer } from "../acting.ts";
import { type Begun, notBegun, notUnderstood } from "../asking/begun.ts";
import { decimalSignOf } from "../figures.ts";
import { changeLines, modelChange } from "../import/change-words.ts";
import { viewerFormats } from "../viewer.ts";
import { type ModelDraft, modelDraftSchema, readModelDraft } from "./model-draft.ts";

/** What a person typed, and the model as it stood when the person began; null: a new one. */
export interface AskedModel {
  readonly draft: ModelDraft;
  readonly seen: EngineModel | null;
}

const askedSchema = z.object({ draft: modelDraftSchema, seen: engineModelSchema.nullable() });
const retireSchema = z.tuple([z.string().min(1).max(400), z.boolean()]);

/** Of `seen` only that it is a model is looked at: as it was sent it is compared with what stands, letter by letter. */
async function read(typed: AskedModel) {
  const parsed = askedSchema.safeParse(typed);
  if (!parsed.success) return { ...notBegun, problem: notUnderstood };
  const result = readModelDraft(parsed.data.draft, {
    seen: typed.seen,
    sign: decimalSignOf((await viewerFormats()).preferences.numbers),
  });
  return result.ok ? result : { ...notBegun, problems: result.problems };
}

/** Begins to look at what a model, as it was typed, would do. */
export async function previewModel(typed: AskedModel): Promise<Begun> {
  const asked = await read(typed);
  if (!("ok" in asked)) return asked;
  const act = await actingViewer();
  if (typeof act === "string") return { ...notBegun, problem: act };
  const { model, warnings } = asked;
  const { seen } = typed;
  const store = await appStore();
  if (seen === null && (await standingModel(store, model.id)) !== null) {
    const id = "There is an engine model of this id already. Change that one, or choose another.";
    return { ...notBegun, problems: { id } };
  }
  const job = startJob("preview", async (control) => {
    const told = await preview(store, model, act, control);
    return { ...told, warnings: [...warnings, ...told.warnings] };
  });
  // Of a new model every field is new: the form itself tells them.
  const reads = seen === null ? [] : changeLines(modelChange(seen, model), await viewerFormats());
  return { ...notBegun, job, reads };
}

/** Begins to keep a model as it was typed. */
export async function saveModel(typed: AskedModel): Promise<Begun> {
  const asked = await read(typed);
  return "ok" in asked ? begin(asked.model, typed.seen) : asked;
}

/** Begins to retire a model as it stands, or to take it back into use. */
export async function retireModel(id: string, retired: boolean): Promise<Begun> {
  if (!retireSchema.safeParse([id, retired]).success) return { ...notBegun, problem: notUnderstood };
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
