import { and, asc, eq, gt, inArray, lte, ne, or, sql } from "drizzle-orm";
import type { IsoDate } from "../lib/schema/facts.ts";
import type { UnitReport } from "../lib/schema/report.ts";
import { remembered } from "./remembered.ts";
import type { Store } from "./store.ts";

/** A unit of a test round, in little: enough to count and to add up hours without reading its report. */
export interface RoundUnit {
  readonly unit: string;
  readonly engineModel: string;
  /** Due before the as-of date, or never tested. */
  readonly overdue: boolean;
}

/**
 * The units in service or stopped whose test is due up to the day `until`, or whose last reading waits for a repeat: by
 * depot (none last), then what is due first. `depot` null: of all depots.
 */
export const roundUnits = remembered(
  "round-units",
  async (
    { q, fleetRows, reports }: Store,
    { depot, until }: { readonly depot: string | null; readonly until: IsoDate },
  ): Promise<readonly RoundUnit[]> => {
    const inDoubt = sql<number>`json_array_length(${reports.report}, '$.assessment.inDoubt')`;
    const asked = q
      .select({ unit: reports.unit })
      .from(reports)
      .innerJoin(fleetRows, eq(fleetRows.unit, reports.unit))
      // Every reading in doubt is a question too: other units' reports need not be opened.
      .where(and(gt(fleetRows.questions, 0), gt(inDoubt, 0)));
    const { unit, engineModel, testOverdue, nextTestDue, asOf } = fleetRows;
    const rows = await q
      .select({ unit, engineModel, testOverdue, nextTestDue, asOf })
      .from(fleetRows)
      .where(
        and(
          ne(fleetRows.status, "retired"),
          depot === null ? undefined : eq(fleetRows.depot, depot),
          or(lte(nextTestDue, until), inArray(unit, asked)),
        ),
      )
      .orderBy(
        sql`${fleetRows.depot} asc nulls last`,
        sql`${nextTestDue} asc nulls last`,
        asc(fleetRows.unitOrder),
        asc(unit),
      );
    return rows.map((row) => ({
      unit: row.unit,
      engineModel: row.engineModel,
      overdue: row.testOverdue || (row.nextTestDue !== null && row.nextTestDue < row.asOf),
    }));
  },
);

/** The reports in force of units, in the order asked for; a unit without one is left out. Ask for some dozen. */
export async function reportsOf({ q, reports }: Store, units: readonly string[]): Promise<UnitReport[]> {
  const rows = await q
    .select({ unit: reports.unit, report: reports.report })
    .from(reports)
    .where(inArray(reports.unit, [...units]));
  const byUnit = new Map(rows.map((row) => [row.unit, row.report]));
  return units.flatMap((unit) => byUnit.get(unit) ?? []);
}
