import { z } from "zod";
import { appStore } from "../../../../../db/app-store.ts";
import { changedRows } from "../../../../../db/changed-rows.ts";
import { importDetail } from "../../../../../db/imports.ts";
import type { Store } from "../../../../../db/store.ts";
import type { CsvCell } from "../../../../../lib/outtake/csv.ts";
import { importErrorWords } from "../../../../_jobs/import-words.ts";
import { answer, answered, queryFields, refusal } from "../../../_http/answers.ts";
import { csvFile } from "../../../_http/csv.ts";

const fields = z.object({
  format: z.enum(["json", "csv"]).default("json"),
  offset: z.coerce.number().int().min(0).default(0),
  limit: z.coerce.number().int().min(1).max(500).default(100),
});

/**
 * What a staged import would change of what is known: what stands now, and what would. A page of it as JSON, or with
 * `format=csv` all of it as a file, a row for each cell.
 */
export const GET = (request: Request, { params }: { readonly params: Promise<{ readonly import: string }> }) =>
  answered(async () => {
    const asked = queryFields(request, fields);
    if (!asked.ok) return asked.response;
    const { import: importId } = await params;
    const store = await appStore();
    const state = (await importDetail(store, importId))?.state;
    if (state === undefined) return refusal(404, importErrorWords({ code: "unknown-import", importId }));
    if (state !== "staged") return refusal(409, importErrorWords({ code: "wrong-state", importId, state }));
    const { format, ...page } = asked.value;
    if (format === "csv") return csvFile("changes-of-import", changeHead, changeRows(store, importId));
    const { things, total } = await changedRows(store, importId, page);
    return answer({ total, changes: things });
  });

const changeHead = ["kind", "subject", "about", "file", "line", "cylinder", "column", "known", "becomes"];
const thingsAtATime = 500;

async function* changeRows(store: Store, importId: string) {
  for (let offset = 0; ; offset += thingsAtATime) {
    const { things, total } = await changedRows(store, importId, { offset, limit: thingsAtATime });
    yield things.flatMap(({ kind, subject, about, file, line, changes }) =>
      changes.map(({ column, cylinder, before, after }) => {
        const of = about.filter((part) => part !== null).join(" ");
        return [kind, subject, of, file, line, cylinder, column, asCell(before), asCell(after)] as const;
      }),
    );
    if (offset + thingsAtATime >= total) return;
  }
}

/** Lists and engine models as JSON. */
function asCell(value: unknown): CsvCell {
  if (value === null || value === undefined) return null;
  return typeof value === "string" || typeof value === "number" ? value : JSON.stringify(value);
}
