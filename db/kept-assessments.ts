import { and, asc, eq, gt, or } from "drizzle-orm";
import type { UnitAssessment } from "../lib/schema/assessment.ts";
import type { Store } from "./store.ts";

const unitsAtATime = 100;

/** The assessments in force, in the order of the units' names (2 before 10), some hundred at a time. */
export async function* keptAssessments({ q, reports, fleetRows }: Store): AsyncGenerator<readonly UnitAssessment[]> {
  let after = { order: "", unit: "" };
  for (;;) {
    const rows = await q
      .select({ report: reports.report, order: fleetRows.unitOrder, unit: fleetRows.unit })
      .from(fleetRows)
      .innerJoin(reports, eq(reports.unit, fleetRows.unit))
      .where(
        or(
          gt(fleetRows.unitOrder, after.order),
          and(eq(fleetRows.unitOrder, after.order), gt(fleetRows.unit, after.unit)),
        ),
      )
      .orderBy(asc(fleetRows.unitOrder), asc(fleetRows.unit))
      .limit(unitsAtATime);
    const last = rows.at(-1);
    if (last === undefined) return;
    after = last;
    yield rows.map((row) => row.report.assessment);
  }
}
