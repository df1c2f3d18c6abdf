import { z } from "zod";
import { appStore } from "../../../../../db/app-store.ts";
import { changedRows } from "../../../../../db/changed-rows.ts";
import { importDetail } from "../../../../../db/imports.ts";
import { importErrorWords } from "../../../../_jobs/import-words.ts";
import { answer, answered, queryFields, refusal } from "../../../_http/answers.ts";

const fields = z.object({
  offset: z.coerce.number().int().min(0).default(0),
  limit: z.coerce.number().int().min(1).max(500).default(100),
});

/** What a staged import would change of what is known: what stands now, and what would. */
export const GET = (request: Request, { params }: { readonly params: Promise<{ readonly import: string }> }) =>
  answered(async () => {
    const asked = queryFields(request, fields);
    if (!asked.ok) return asked.response;
    const { import: importId } = await params;
    const store = await appStore();
    const state = (await importDetail(store, importId))?.state;
    if (state === undefined) return refusal(404, importErrorWords({ code: "unknown-import", importId }));
    if (state !== "staged") return refusal(409, importErrorWords({ code: "wrong-state", importId, state }));
    const { things, total } = await changedRows(store, importId, asked.value);
    return answer({ total, changes: things });
  });
