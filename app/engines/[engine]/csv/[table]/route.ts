import { fittingsTable } from "@/app/_ui/engines/engine-files.ts";
import { stayNow } from "@/app/_ui/engines/engine-words.ts";
import { isReportTable, reportTables } from "@/app/_ui/unit/report-files.ts";
import { answered, refusal } from "@/app/api/_http/answers.ts";
import { csvTableFile } from "@/app/api/_http/csv.ts";
import { appStore } from "@/db/app-store.ts";
import { unitReport } from "@/db/assessments.ts";
import { engineOf } from "@/db/engines.ts";

interface Context {
  readonly params: Promise<{ readonly engine: string; readonly table: string }>;
}

/** One of the tables of an engine's page as a file. */
export const GET = (_request: Request, { params }: Context) =>
  answered(async () => {
    const { engine: key, table } = await params;
    const store = await appStore();
    const engine = await engineOf(store, key);
    if (engine === null) return refusal(404, "No engine goes by this number.");
    const now = stayNow(engine);
    const report = now === null ? engine.report : await unitReport(store, now.unit);
    const name = `engine-${key}-${table}`;
    if (table === "units") return csvTableFile(name, fittingsTable([engine], { xNow: report?.xNow ?? null }));
    if (report === null || !isReportTable(table)) return refusal(404, "This engine has no table of this name.");
    return csvTableFile(name, reportTables[table](report));
  });
