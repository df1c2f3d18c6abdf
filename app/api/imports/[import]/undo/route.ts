import { undoImport } from "../../../../_jobs/undo-import.ts";
import { startImportJob } from "../../../_http/import-job.ts";
import { writing } from "../../../_http/writing.ts";

/** Takes a committed import back, whole. */
export const POST = (request: Request, { params }: { readonly params: Promise<{ readonly import: string }> }) =>
  writing(request, async ({ store, act }) => {
    const { import: importId } = await params;
    return startImportJob(store, { kind: "undo", importId, needs: "committed" }, (control) =>
      undoImport(store, importId, act, control),
    );
  });
