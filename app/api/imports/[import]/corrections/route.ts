import { z } from "zod";
import { longestText } from "../../../../../lib/schema/cells.ts";
import { startJob } from "../../../../_jobs/job-registry.ts";
import { putRight } from "../../../../_jobs/put-right.ts";
import { answer, jsonBody } from "../../../_http/answers.ts";
import { writing } from "../../../_http/writing.ts";

const body = z.object({ issue: z.number().int().positive(), value: z.string().max(longestText) });

/** Reads the cell of a refused row as something else: `{ "job": id }`. The job's result names the import that comes of it. */
export const POST = (request: Request, { params }: { readonly params: Promise<{ readonly import: string }> }) =>
  writing(request, async ({ store, act }) => {
    const asked = await jsonBody(request, body);
    if (!asked.ok) return asked.response;
    const { import: importId } = await params;
    const job = startJob("stage", async (control) => ({
      import: (await putRight(store, importId, { ...act, ...asked.value }, control)).id,
    }));
    return answer({ job }, 202);
  });
