import { importErrorWords } from "@/app/_jobs/import-words.ts";
import { importFilesTable } from "@/app/_ui/history-files.ts";
import { answered, refusal } from "@/app/api/_http/answers.ts";
import { csvTableFile } from "@/app/api/_http/csv.ts";
import { appStore } from "@/db/app-store.ts";
import { importDetail } from "@/db/imports.ts";

/** The files of an import, and what became of their rows. */
export const GET = (_request: Request, { params }: { readonly params: Promise<{ readonly import: string }> }) =>
  answered(async () => {
    const { import: importId } = await params;
    const detail = await importDetail(await appStore(), importId);
    if (detail === null) return refusal(404, importErrorWords({ code: "unknown-import", importId }));
    return csvTableFile(`import-${importId}-files`, importFilesTable(detail));
  });
