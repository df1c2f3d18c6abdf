import { z } from "zod";
import { appStore } from "../../../db/app-store.ts";
import { listImports } from "../../../db/imports.ts";
import { readSettings } from "../../../db/settings.ts";
import { readingChoiceSchema } from "../../../lib/schema/reading.ts";
import { withChoices } from "../../_jobs/import-source.ts";
import { startJob } from "../../_jobs/job-registry.ts";
import { stageImport } from "../../_jobs/stage-import.ts";
import { uploadLimits } from "../../_ui/import/limits.ts";
import { answer, answered, jsonBody, refusal } from "../_http/answers.ts";
import { importView } from "../_http/import-view.ts";
import { takeFiles, uploadRefusal } from "../_http/uploads.ts";
import { writing } from "../_http/writing.ts";

/** The last imports, newest first. */
export const GET = () =>
  answered(async () => answer({ imports: (await listImports(await appStore())).map(importView) }));

const body = z.object({
  upload: z.string(),
  /** How files of the upload are to be read, by their names, where that is not to be found out. */
  reading: z.record(z.string(), readingChoiceSchema).default({}),
});

/**
 * Reads the files of an upload into an import that waits to be committed: `{ "job": id }`. The job's result names the
 * import; the uploaded files are deleted when it ends, however it ends.
 */
export const POST = (request: Request) =>
  writing(request, async ({ store, act }) => {
    const asked = await jsonBody(request, body);
    if (!asked.ok) return asked.response;
    const taken = await takeFiles(asked.value.upload);
    if (typeof taken === "string") return uploadRefusal(taken, uploadLimits(await readSettings(store)));
    if (taken.sources.length === 0) {
      await taken.done();
      return refusal(400, "The upload holds no file.");
    }
    const { reading } = asked.value;
    const job = startJob("stage", async (control) => {
      try {
        return { import: (await stageImport(store, withChoices(taken.sources, reading), act, control)).id };
      } finally {
        await taken.done();
      }
    });
    return answer({ job }, 202);
  });
