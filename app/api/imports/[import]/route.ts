import { appStore } from "../../../../db/app-store.ts";
import { importDetail } from "../../../../db/imports.ts";
import { discardImport } from "../../../_jobs/discard-import.ts";
import { importErrorWords } from "../../../_jobs/import-words.ts";
import { answer, answered, refusal } from "../../_http/answers.ts";
import { importErrorStatus } from "../../_http/import-error-status.ts";
import { importView } from "../../_http/import-view.ts";
import { writing } from "../../_http/writing.ts";

interface Context {
  readonly params: Promise<{ readonly import: string }>;
}

/** One import: its state, files and counts. */
export const GET = (_request: Request, { params }: Context) =>
  answered(async () => {
    const { import: id } = await params;
    const detail = await importDetail(await appStore(), id);
    if (detail === null) return refusal(404, importErrorWords({ code: "unknown-import", importId: id }));
    return answer(importView(detail));
  });

/** Discards an import that was not committed. */
export const DELETE = (request: Request, { params }: Context) =>
  writing(request, async ({ store, act }) => {
    const outcome = await discardImport(store, (await params).import, act);
    if (!outcome.ok) return refusal(importErrorStatus(outcome.error), importErrorWords(outcome.error));
    return answer({ discarded: true });
  });
