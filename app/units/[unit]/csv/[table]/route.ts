import { issuesTable } from "@/app/_ui/changes/history-file.ts";
import { fittingsTable } from "@/app/_ui/engines/engine-files.ts";
import { askedTestSchema } from "@/app/_ui/recording/asked-test.ts";
import { disposalTable, notesTable, statusTable, testHistoryTable } from "@/app/_ui/recording/record-files.ts";
import { isReportTable, reportTables } from "@/app/_ui/unit/report-files.ts";
import { answered, refusal } from "@/app/api/_http/answers.ts";
import { csvTableFile } from "@/app/api/_http/csv.ts";
import { appStore } from "@/db/app-store.ts";
import { unitReport } from "@/db/assessments.ts";
import { unitIssues } from "@/db/changes.ts";
import { disposalHistory } from "@/db/disposal-history.ts";
import { enginesOf } from "@/db/engines.ts";
import { notesOf } from "@/db/notes.ts";
import { statusHistory } from "@/db/status-history.ts";
import type { Store } from "@/db/store.ts";
import { testHistories, testHistoryKey } from "@/db/test-history.ts";
import type { CsvTable } from "@/lib/outtake/csv-table.ts";
import type { UnitReport } from "@/lib/schema/report.ts";

/** Far more than any unit was ever assessed: the page shows the last few. */
const mostIssues = 5_000;

interface Context {
  readonly params: Promise<{ readonly unit: string; readonly table: string }>;
}

/** One of the tables of a unit's page as a file. */
export const GET = (request: Request, { params }: Context) =>
  answered(async () => {
    const { unit, table } = await params;
    const store = await appStore();
    const report = await unitReport(store, unit);
    if (report === null) return refusal(404, "No unit goes by this number.");
    const found = await tableOf(store, report, table, new URL(request.url).searchParams);
    if (found === null) return refusal(404, "A unit has no table of this name.");
    return csvTableFile(`${unit}-${table}`, found);
  });

async function tableOf(
  store: Store,
  report: UnitReport,
  name: string,
  asked: URLSearchParams,
): Promise<CsvTable | null> {
  const { unit } = report.assessment;
  if (isReportTable(name)) return reportTables[name](report);
  if (name === "engines") return fittingsTable(await enginesOf(store, unit), { unit, xNow: report.xNow });
  if (name === "forecasts") return issuesTable(await unitIssues(store, unit, mostIssues));
  if (name === "notes") return notesTable(await notesOf(store, unit));
  if (name === "status") return statusTable(await statusHistory(store, unit));
  if (name === "disposal") return disposalTable(await disposalHistory(store, unit));
  if (name === "test-history") {
    const test = askedTestSchema.safeParse(Object.fromEntries(asked));
    if (!test.success) return null;
    const events = (await testHistories(store, [unit])).get(testHistoryKey({ unit, ...test.data }));
    return events === undefined ? null : testHistoryTable(events);
  }
  return null;
}
