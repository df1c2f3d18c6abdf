"use server";

import { z } from "zod";
import { appStore } from "../../../db/app-store.ts";
import { unitReport } from "../../../db/assessments.ts";
import { withdrawPhoto } from "../../../db/photos.ts";
import { readSettings } from "../../../db/settings.ts";
import { lastDateTaken } from "../../_jobs/as-of.ts";
import { startJob } from "../../_jobs/job-registry.ts";
import { previewBands } from "../../_jobs/preview-bands.ts";
import { doerOf } from "../../_jobs/progress.ts";
import { recordFacts } from "../../_jobs/record-facts.ts";
import { actingViewer } from "../acting.ts";
import { type Begun, notBegun, notUnderstood } from "../asking/begun.ts";
import { decimalSignOf } from "../figures.ts";
import { viewerFormats } from "../viewer.ts";
import { keptAtOnce } from "./address.ts";
import { type ReadForm, readRecord } from "./read-record.ts";
import { type AskedRecord, askedRecordSchema } from "./record-fields.ts";

async function read(asked: AskedRecord) {
  const given = askedRecordSchema.safeParse(asked);
  if (!given.success) return { refused: { ...notBegun, problem: notUnderstood } };
  const { unit, fields } = given.data;
  const act = await actingViewer();
  if (typeof act === "string") return { refused: { ...notBegun, problem: act } };
  const store = await appStore();
  const report = await unitReport(store, unit);
  if (report === null) return { refused: { ...notBegun, problem: `No unit ${unit} is known any more.` } };
  const f = await viewerFormats();
  const context = {
    unit,
    cylinders: report.model.cylinders,
    latest: lastDateTaken(await readSettings(store), act.now),
    sign: decimalSignOf(f.preferences.numbers),
    by: act.by,
  };
  const form = await readRecord(fields, { store, report, context, f });
  if (form === null) return { refused: { ...notBegun, problem: "This test is not on file any more." } };
  if (!form.ok) return { refused: { ...notBegun, problems: form.problems } };
  return { form, act, store };
}

/** Begins to look at what a record would change; what moves little is kept at once. */
export async function lookAtRecord(asked: AskedRecord): Promise<Begun> {
  const given = await read(asked);
  if ("refused" in given) return given.refused;
  const { form, act, store } = given;
  if (keptAtOnce.has(asked.fields.what)) return keep(given);
  const job = startJob("preview", (control) => previewBands(store, changeOf(form), act, control));
  return { ...notBegun, job, reads: form.reads };
}

const changeOf = ({ told, tellsWhole = false }: ReadForm) => ({ told, tellsWhole });

/** Begins to keep the record, and to assess the units that it touches. */
export async function keepRecord(asked: AskedRecord): Promise<Begun> {
  const given = await read(asked);
  return "refused" in given ? given.refused : keep(given);
}

function keep({ form, act, store }: Exclude<Awaited<ReturnType<typeof read>>, { refused: Begun }>): Begun {
  const job = startJob("save", (control) => recordFacts(store, form, act, control));
  return { ...notBegun, kind: "save", job, reads: form.reads };
}

/** Takes a photo out of sight; gives why not. */
export async function takePhotoAway(photo: number): Promise<string | null> {
  if (!z.int().safeParse(photo).success) return notUnderstood;
  const act = await actingViewer();
  if (typeof act === "string") return act;
  return (await withdrawPhoto(await appStore(), photo, doerOf(act))) ? null : "This photo is out of sight already.";
}
