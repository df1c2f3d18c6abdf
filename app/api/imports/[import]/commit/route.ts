import { z } from "zod";
import { commitImport } from "../../../../_jobs/commit-import.ts";
import { jsonBody } from "../../../_http/answers.ts";
import { startImportJob } from "../../../_http/import-job.ts";
import { writing } from "../../../_http/writing.ts";

const body = z.object({ takeChanges: z.boolean().default(false) });

/** Takes an import in; with `{ "takeChanges": true }` also the rows that change what is known. */
export const POST = (request: Request, { params }: { readonly params: Promise<{ readonly import: string }> }) =>
  writing(request, async ({ store, act }) => {
    const asked = await jsonBody(request, body);
    if (!asked.ok) return asked.response;
    const { import: importId } = await params;
    return startImportJob(store, { kind: "commit", importId, needs: "staged" }, (control) =>
      commitImport(store, importId, { ...act, ...asked.value }, control),
    );
  });
