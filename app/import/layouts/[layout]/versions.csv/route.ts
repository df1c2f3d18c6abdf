import { layoutVersionsTable } from "@/app/_ui/history-files.ts";
import { layoutVersionsOf } from "@/app/_ui/layouts/layout-versions.ts";
import { answered } from "@/app/api/_http/answers.ts";
import { csvTableFile } from "@/app/api/_http/csv.ts";
import { appStore } from "@/db/app-store.ts";
import { layoutVersions } from "@/db/layouts.ts";

interface Context {
  readonly params: Promise<{ readonly layout: string }>;
}

/** What was changed in a layout, version by version, newest first. The proxy answers for a layout that is not known. */
export const GET = (_request: Request, { params }: Context) =>
  answered(async () => {
    const { layout } = await params;
    const versions = layoutVersionsOf(await layoutVersions(await appStore(), layout));
    return csvTableFile(`${layout}-versions`, layoutVersionsTable(versions));
  });
