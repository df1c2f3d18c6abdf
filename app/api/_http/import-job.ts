import type { ImportStateError, Outcome } from "../../../db/import-state.ts";
import { importDetail } from "../../../db/imports.ts";
import type { ImportState } from "../../../db/schema-imports.ts";
import type { Store } from "../../../db/store.ts";
import { importErrorWords } from "../../_jobs/import-words.ts";
import { JobError, startJob } from "../../_jobs/job-registry.ts";
import type { JobControl } from "../../_jobs/progress.ts";
import { answer, refusal } from "./answers.ts";
import { importErrorStatus } from "./import-error-status.ts";
import { jobOfImport, noteJobOfImport } from "./job-of-import.ts";

/**
 * Starts a job on an import that is in the state needed: `{ "job": id }`. The state is looked at first, so that a
 * mistake is answered at once; the job looks again, for somebody else may be quicker.
 */
export async function startImportJob(
  store: Store,
  asked: { readonly kind: "commit" | "undo"; readonly importId: string; readonly needs: ImportState },
  work: (control: Required<JobControl>) => Promise<Outcome<unknown>>,
): Promise<Response> {
  const { importId, needs } = asked;
  const state = (await importDetail(store, importId))?.state;
  if (state !== needs) {
    const error: ImportStateError =
      state === undefined ? { code: "unknown-import", importId } : { code: "wrong-state", importId, state };
    return refusal(importErrorStatus(error), importErrorWords(error));
  }
  if (jobOfImport(importId) !== null) return refusal(409, "This import is being committed or undone right now.");
  const job = startJob(asked.kind, async (control) => {
    const outcome = await work(control);
    if (!outcome.ok) throw new JobError(importErrorWords(outcome.error));
    return { import: importId, ...(outcome.value as object) };
  });
  noteJobOfImport(importId, job);
  return answer({ job }, 202);
}
