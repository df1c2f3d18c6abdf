import { z } from "zod";
import { readingChoiceSchema } from "../../../../../lib/schema/reading.ts";
import { startJob } from "../../../../_jobs/job-registry.ts";
import { readAgain } from "../../../../_jobs/read-again.ts";
import { answer, jsonBody } from "../../../_http/answers.ts";
import { writing } from "../../../_http/writing.ts";

/** How files of the import are to be read, by their names; the others are read as before. */
const body = z.object({ reading: z.record(z.string(), readingChoiceSchema) });

/** Reads the files of a waiting import once more: `{ "job": id }`. The job's result names the import that comes of it. */
export const POST = (request: Request, { params }: { readonly params: Promise<{ readonly import: string }> }) =>
  writing(request, async ({ store, act }) => {
    const asked = await jsonBody(request, body);
    if (!asked.ok) return asked.response;
    const { import: importId } = await params;
    const choices = asked.value.reading;
    const job = startJob("stage", async (control) => ({
      import: (await readAgain(store, importId, { ...act, choices }, control)).id,
    }));
    return answer({ job }, 202);
  });
