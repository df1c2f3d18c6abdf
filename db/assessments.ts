import { and, asc, desc, eq, gt, inArray, min, ne } from "drizzle-orm";
import { reportFormat, type UnitReport } from "../lib/schema/report.ts";
import { chunks, forChunks } from "./chunks.ts";
import { fleetRowOf } from "./fleet-row.ts";
import { takeIds } from "./meta.ts";
import type { Schema } from "./schema.ts";
import type { AssessmentReason } from "./schema-derived.ts";
import type { Q, Store } from "./store.ts";

export type AssessmentRow = Schema["assessments"]["$inferSelect"];

/**
 * Puts reports in force, and adds their assessments to the history, but for `day`: a new telling of the same forecast
 * replaces the report alone. `version`: that of the facts that they were made from; where another process has put one
 * made from later facts in force meanwhile, that stays. A batch is one transaction: give some hundred at a time.
 */
export function keepReports(
  store: Store,
  given: readonly UnitReport[],
  told: { because: AssessmentReason; importId?: string | null; at: string; version: number },
): Promise<void> {
  const { because, importId = null, at, version } = told;
  const { reports, fleetRows, assessments } = store;
  return store.tx(async (q) => {
    const newer = await reportsNewerThan(store, q, version, given.map(unitOf));
    const kept = given.filter((report) => !newer.has(unitOf(report)));
    await removeReports(store, q, kept.map(unitOf));
    const rows = kept.map((report) => ({ unit: unitOf(report), factsVersion: version, report, format: reportFormat }));
    await store.bulkInsert(q, reports, ["unit", "factsVersion", "report", "format"], rows);
    const fleet = kept.map((report) => fleetRowOf(report, { because, importId, madeAt: at }));
    if (fleet[0]) await store.bulkInsert(q, fleetRows, Object.keys(fleet[0]), fleet);
    if (because === "day" || kept.length === 0) return;
    let id = await takeIds(store, q, kept.length);
    const history = kept.map(({ asOf, assessment }) => ({
      id: id++,
      unit: assessment.unit,
      asOf,
      madeAt: at,
      because,
      importId,
      band: assessment.band,
      assessment,
    }));
    await store.bulkInsert(q, assessments, Object.keys(history[0]!), history);
  });
}

const unitOf = (report: UnitReport): string => report.assessment.unit;

/** Takes units off the Fleet page that the facts of `version` do not know any more; their history stays. */
export function dropReports(store: Store, units: readonly string[], { version }: { version: number }): Promise<void> {
  return store.tx(async (q) => {
    const newer = await reportsNewerThan(store, q, version, units);
    await removeReports(
      store,
      q,
      units.filter((unit) => !newer.has(unit)),
    );
  });
}

async function reportsNewerThan(
  { reports }: Store,
  q: Q,
  version: number,
  units: readonly string[],
): Promise<ReadonlySet<string>> {
  const rows = await forChunks(units, (part) =>
    q
      .select({ unit: reports.unit })
      .from(reports)
      .where(and(inArray(reports.unit, part), gt(reports.factsVersion, version))),
  );
  return new Set(rows.map((row) => row.unit));
}

async function removeReports({ reports, fleetRows }: Store, q: Q, units: readonly string[]): Promise<void> {
  for (const part of chunks(units)) {
    await q.delete(reports).where(inArray(reports.unit, [...part]));
    await q.delete(fleetRows).where(inArray(fleetRows.unit, [...part]));
  }
}

export async function unitReport({ q, reports }: Store, unit: string): Promise<UnitReport | null> {
  const [row] = await q.select().from(reports).where(eq(reports.unit, unit));
  return row?.report ?? null;
}

/** Assessments of a unit as they were issued, newest first. */
export async function assessmentHistory(
  { q, assessments }: Store,
  unit: string,
  limit: number,
): Promise<AssessmentRow[]> {
  return await q
    .select()
    .from(assessments)
    .where(eq(assessments.unit, unit))
    .orderBy(desc(assessments.id))
    .limit(limit);
}

/** Units with a report in force, in the order of their names (2 before 10). */
export async function unitNames({ q, fleetRows }: Store): Promise<string[]> {
  const rows = await q
    .select({ unit: fleetRows.unit })
    .from(fleetRows)
    .orderBy(asc(fleetRows.unitOrder), asc(fleetRows.unit));
  return rows.map((row) => row.unit);
}

/** Whether a program that knew another form of report made any of those in force. */
export async function keepsOtherFormat({ q, reports }: Store): Promise<boolean> {
  const [row] = await q.select({ unit: reports.unit }).from(reports).where(ne(reports.format, reportFormat)).limit(1);
  return row !== undefined;
}

/** The oldest as-of date among the reports in force; null: there is none. */
export async function keptAsOf({ q, fleetRows }: Store): Promise<string | null> {
  const [row] = await q.select({ asOf: min(fleetRows.asOf) }).from(fleetRows);
  return row?.asOf ?? null;
}
