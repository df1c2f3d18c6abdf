import type { z } from "zod";
import type { ImportDetail } from "../../../db/imports.ts";
import type { Store } from "../../../db/store.ts";
import { startJob } from "../../_jobs/job-registry.ts";
import type { Act, JobControl } from "../../_jobs/progress.ts";
import { answer, jsonBody } from "./answers.ts";
import { writing } from "./writing.ts";

type ReadAnew<T> = (store: Store, importId: string, asked: Act & T, control: JobControl) => Promise<ImportDetail>;

/**
 * The way to have a waiting import read anew with what the body says: `{ "job": id }`. The job's result names the import
 * that comes of it.
 */
export const readingAnew =
  <T extends object>(body: z.ZodType<T>, read: ReadAnew<T>) =>
  (request: Request, { params }: { readonly params: Promise<{ readonly import: string }> }): Promise<Response> =>
    writing(request, async ({ store, act }) => {
      const asked = await jsonBody(request, body);
      if (!asked.ok) return asked.response;
      const { import: importId } = await params;
      const job = startJob("stage", async (control) => ({
        import: (await read(store, importId, { ...asked.value, ...act }, control)).id,
      }));
      return answer({ job }, 202);
    });
