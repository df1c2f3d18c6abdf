import type { ToldStanding } from "../../../db/changes.ts";
import { changeCauses } from "../../../lib/changes/causes.ts";
import { type CsvTable, csvTable } from "../../../lib/outtake/csv-table.ts";

/** Forecasts of a unit as they were issued, newest first, and why each differs from the one before. */
export const issuesTable = (issues: readonly ToldStanding[]): CsvTable =>
  csvTable(
    issues.map((issue, i) => ({ issue, before: issues[i + 1] })),
    {
      issued: ({ issue }) => issue.madeAt,
      as_of: ({ issue }) => issue.asOf,
      band: ({ issue }) => issue.band,
      top_end_status: ({ issue }) => issue.topEnd.status,
      top_end_early: ({ issue }) => issue.topEnd.p10,
      top_end_likely: ({ issue }) => issue.topEnd.p50,
      top_end_late: ({ issue }) => issue.topEnd.p90,
      bottom_end_status: ({ issue }) => issue.bottomEnd.status,
      bottom_end_early: ({ issue }) => issue.bottomEnd.p10,
      bottom_end_likely: ({ issue }) => issue.bottomEnd.p50,
      bottom_end_late: ({ issue }) => issue.bottomEnd.p90,
      questions: ({ issue }) => issue.questions,
      last_test: ({ issue }) => issue.lastTestDate,
      why: ({ issue, before }) =>
        before === undefined
          ? "first forecast"
          : changeCauses(before, issue)
              .map(({ words }) => words)
              .join("; "),
    },
  );
