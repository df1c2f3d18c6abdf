import { altitudesTable, depotChangesTable } from "@/app/_ui/history-files.ts";
import { answered, refusal } from "@/app/api/_http/answers.ts";
import { csvTableFile } from "@/app/api/_http/csv.ts";
import { appStore } from "@/db/app-store.ts";
import { altitudeHistory } from "@/db/depot-overview.ts";
import { depotHistory } from "@/db/depots.ts";

interface Context {
  readonly params: Promise<{ readonly depot: string; readonly table: string }>;
}

/** Who told what of a depot: `changes` of what it has and when it works, or its `altitudes`. The proxy answers for a depot that is not known. */
export const GET = (_request: Request, { params }: Context) =>
  answered(async () => {
    const { depot, table } = await params;
    const store = await appStore();
    const name = `${depot}-${table}`;
    if (table === "changes") return csvTableFile(name, depotChangesTable(await depotHistory(store, depot)));
    if (table === "altitudes") return csvTableFile(name, altitudesTable(await altitudeHistory(store, depot)));
    return refusal(404, "A depot has no table of this name.");
  });
