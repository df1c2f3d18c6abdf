import { z } from "zod";
import { appStore } from "../../../db/app-store.ts";
import { listImports } from "../../../db/imports.ts";
import { startJob } from "../../_jobs/job-registry.ts";
import { stageImport } from "../../_jobs/stage-import.ts";
import { answer, answered, jsonBody, refusal } from "../_http/answers.ts";
import { importView } from "../_http/import-view.ts";
import { takeFiles, uploadStatus, uploadWords } from "../_http/uploads.ts";
import { writing } from "../_http/writing.ts";

/** The last imports, newest first. */
export const GET = () =>
  answered(async () => answer({ imports: (await listImports(await appStore())).map(importView) }));

const body = z.object({ upload: z.string() });

/**
 * Reads the files of an upload into an import that waits to be committed: `{ "job": id }`. The job's result names the
 * import; the uploaded files are deleted when it ends, however it ends.
 */
export const POST = (request: Request) =>
  writing(request, async ({ store, act }) => {
    const asked = await jsonBody(request, body);
    if (!asked.ok) return asked.response;
    const taken = await takeFiles(asked.value.upload);
    if (typeof taken === "string") return refusal(uploadStatus[taken], uploadWords[taken]);
    if (taken.sources.length === 0) {
      await taken.done();
      return refusal(400, "The upload holds no file.");
    }
    const job = startJob("stage", async (control) => {
      try {
        return { import: (await stageImport(store, taken.sources, act, control)).id };
      } finally {
        await taken.done();
      }
    });
    return answer({ job }, 202);
  });
