import { z } from "zod";
import { appStore } from "../../../../../db/app-store.ts";
import { allIssues, importDetail, importIssues } from "../../../../../db/imports.ts";
import type { Store } from "../../../../../db/store.ts";
import { importErrorWords } from "../../../../_jobs/import-words.ts";
import { answer, answered, queryFields, refusal } from "../../../_http/answers.ts";
import { csvFile } from "../../../_http/csv.ts";

const severity = z.enum(["refused", "warning", "mention"]);
const fields = z.object({
  severity: severity.optional(),
  format: z.enum(["json", "csv"]).default("json"),
  offset: z.coerce.number().int().min(0).default(0),
  limit: z.coerce.number().int().min(1).max(1000).default(100),
});

/** What was said of an import's rows: a page of it as JSON, or with `format=csv` all of it as a file. */
export const GET = (request: Request, { params }: { readonly params: Promise<{ readonly import: string }> }) =>
  answered(async () => {
    const asked = queryFields(request, fields);
    if (!asked.ok) return asked.response;
    const { format, offset, limit, severity: wanted } = asked.value;
    const { import: importId } = await params;
    const store = await appStore();
    if ((await importDetail(store, importId)) === null) {
      return refusal(404, importErrorWords({ code: "unknown-import", importId }));
    }
    const bySeverity = wanted === undefined ? {} : { severity: wanted };
    if (format === "csv") {
      return csvFile(`${wanted ?? "all"}-rows`, issueHead, issueRows(store, importId, bySeverity));
    }
    const { issues, total } = await importIssues(store, importId, { offset, limit, ...bySeverity });
    return answer({ total, issues: issues.map(({ importId: _importId, ...issue }) => issue) });
  });

const issueHead = ["file", "line", "column", "value", "severity", "reason"];

async function* issueRows(
  store: Store,
  importId: string,
  bySeverity: { readonly severity?: z.infer<typeof severity> },
) {
  for await (const issues of allIssues(store, importId, bySeverity)) {
    yield issues.map((i) => [i.file, i.line, i.column, i.value, i.severity, i.words]);
  }
}
