import { versionsTable } from "@/app/_ui/history-files.ts";
import { versionRows } from "@/app/_ui/models/version-rows.ts";
import { answered } from "@/app/api/_http/answers.ts";
import { csvTableFile } from "@/app/api/_http/csv.ts";
import { appStore } from "@/db/app-store.ts";
import { modelVersions, standingModel } from "@/db/engine-models.ts";

/** What was told of an engine model, figure by figure, newest first. The proxy answers for a model that is not known. */
export const GET = (_request: Request, { params }: { readonly params: Promise<{ readonly model: string }> }) =>
  answered(async () => {
    const { model } = await params;
    const store = await appStore();
    const versions = await modelVersions(store, model);
    const isoDates = { date: (date: string) => date };
    const rows = versionRows(versions, await standingModel(store, model), isoDates);
    return csvTableFile(`${model}-versions`, versionsTable(rows));
  });
