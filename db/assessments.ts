import { and, asc, desc, eq, getTableColumns, gt, inArray, lt, max, min, ne, sql } from "drizzle-orm";
import type { Standing } from "../lib/schema/changes.ts";
import type { UnitCourses } from "../lib/schema/comparison.ts";
import { reportFormat, type UnitReport } from "../lib/schema/report.ts";
import { chunks, forChunks } from "./chunks.ts";
import { fleetRowOf } from "./fleet-row.ts";
import { takeIds } from "./meta.ts";
import { preparedFor } from "./prepared.ts";
import type { Schema } from "./schema.ts";
import type { AssessmentReason } from "./schema-derived.ts";
import { standingColumns, standingOf } from "./standing.ts";
import type { Q, Store } from "./store.ts";
import { putCourses, removeCourses } from "./unit-courses.ts";

export type AssessmentRow = Schema["assessments"]["$inferSelect"];

/**
 * Puts reports in force, and adds their assessments to the history. A day's telling of the same forecast replaces the
 * report alone, unless `isNews` tells it from the last one in the history. `version`: that of the facts that they were
 * made from; where another process has put one made from later facts in force meanwhile, that stays. `lastId`: of the
 * history before the job began; what the job issued of a unit since is taken out, for nobody was told it. `courses`: by
 * unit, what each is compared by. A batch is one transaction: give some hundred at a time.
 */
export function keepReports(
  store: Store,
  given: readonly UnitReport[],
  told: {
    readonly because: AssessmentReason;
    readonly importId?: string | null;
    readonly at: string;
    readonly version: number;
    readonly lastId?: number;
    readonly isNews?: (was: Standing, now: Standing) => boolean;
    readonly courses?: ReadonlyMap<string, UnitCourses>;
  },
): Promise<void> {
  const { because, importId = null, at, version, lastId = null, isNews = () => false, courses } = told;
  const { reports, fleetRows, assessments } = store;
  return store.tx(async (q) => {
    const newer = await reportsNewerThan(store, q, version, given.map(unitOf));
    const kept = given.filter((report) => !newer.has(unitOf(report)));
    if (kept.length === 0) return;
    if (lastId !== null) {
      for (const part of chunks(kept.map(unitOf)))
        await q.delete(assessments).where(and(inArray(assessments.unit, [...part]), gt(assessments.id, lastId)));
    }
    const last = because === "day" ? await lastIssues(store, q, kept.map(unitOf)) : new Map<string, Issue>();
    const issued = kept.filter((report) => {
      const issue = last.get(unitOf(report));
      if (issue === undefined) return true;
      const now = standingColumns(report.asOf, report.assessment);
      return isNews(standingOf(issue), standingOf(now));
    });
    let id = issued.length === 0 ? 0 : await takeIds(store, q, issued.length);
    const history = issued.map((report) => ({
      ...standingColumns(report.asOf, report.assessment),
      id: id++,
      unit: unitOf(report),
      madeAt: at,
      because,
      importId,
      depot: report.depot,
      basis: report.basis,
      assessment: report.assessment,
    }));
    if (history[0]) await store.bulkInsert(q, assessments, Object.keys(history[0]), history);
    const issues = new Map<string, Pick<Issue, "id" | "madeAt">>([
      ...last,
      ...history.map((row) => [row.unit, row] as const),
    ]);

    await removeReports(store, q, kept.map(unitOf));
    const rows = kept.map((report) => ({ unit: unitOf(report), factsVersion: version, report, format: reportFormat }));
    await store.bulkInsert(q, reports, ["unit", "factsVersion", "report", "format"], rows);
    const fleet = kept.map((report) => {
      const issue = issues.get(unitOf(report));
      const issuedAs = { issueId: issue?.id ?? null, issuedAt: issue?.madeAt ?? null };
      return fleetRowOf(report, { because, importId, madeAt: at, ...issuedAs });
    });
    if (fleet[0]) await store.bulkInsert(q, fleetRows, Object.keys(fleet[0]), fleet);
    const compared = kept.flatMap((report) => courses?.get(unitOf(report)) ?? []);
    await putCourses(store, q, compared);
  });
}

/** The newest identifier in the history; 0: it is empty. */
export async function lastIssueId({ q, assessments }: Store): Promise<number> {
  const [row] = await q.select({ id: max(assessments.id) }).from(assessments);
  return row?.id ?? 0;
}

type Issue = Omit<AssessmentRow, "assessment" | "basis">;

/** The newest assessment of each unit in the history, by unit. */
async function lastIssues({ assessments }: Store, q: Q, units: readonly string[]): Promise<ReadonlyMap<string, Issue>> {
  const { assessment: _assessment, basis: _basis, ...columns } = getTableColumns(assessments);
  const newest = q
    .select({ id: max(assessments.id) })
    .from(assessments)
    .where(inArray(assessments.unit, [...units]))
    .groupBy(assessments.unit);
  const rows = await q.select(columns).from(assessments).where(inArray(assessments.id, newest));
  return new Map(rows.map((row) => [row.unit, row]));
}

const unitOf = (report: UnitReport): string => report.assessment.unit;

/**
 * Takes units off the Fleet page that the facts of `version` do not know any more; their history stays, and keeps that
 * they left.
 */
export function dropReports(
  store: Store,
  units: readonly string[],
  told: {
    readonly because: AssessmentReason;
    readonly importId?: string | null;
    readonly at: string;
    readonly version: number;
  },
): Promise<void> {
  const { because, importId = null, at, version } = told;
  const { reports, departures } = store;
  return store.tx(async (q) => {
    const newer = await reportsNewerThan(store, q, version, units);
    const dropped = units.filter((unit) => !newer.has(unit));
    const there = await forChunks(dropped, (part) =>
      q.select({ unit: reports.unit }).from(reports).where(inArray(reports.unit, part)),
    );
    await removeReports(store, q, dropped);
    if (there.length === 0) return;
    let id = await takeIds(store, q, there.length);
    const rows = there.map(({ unit }) => ({ id: id++, unit, at, because, importId }));
    await store.bulkInsert(q, departures, ["id", "unit", "at", "because", "importId"], rows);
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

async function removeReports(store: Store, q: Q, units: readonly string[]): Promise<void> {
  const { reports, fleetRows } = store;
  await removeCourses(store, q, units);
  for (const part of chunks(units)) {
    await q.delete(reports).where(inArray(reports.unit, [...part]));
    await q.delete(fleetRows).where(inArray(fleetRows.unit, [...part]));
  }
}

export async function unitReport(store: Store, unit: string): Promise<UnitReport | null> {
  const [row] = await reportOf(store).all({ unit });
  return row?.report ?? null;
}

const reportOf = preparedFor(({ q, reports }) =>
  q
    .select({ report: reports.report })
    .from(reports)
    .where(eq(reports.unit, sql.placeholder("unit")))
    .prepare(),
);

/** Whether a unit has a report in force. */
export async function knowsUnit(store: Store, unit: string): Promise<boolean> {
  return (await namedUnit(store).all({ unit })).length > 0;
}

const namedUnit = preparedFor(({ q, reports }) =>
  q
    .select({ unit: reports.unit })
    .from(reports)
    .where(eq(reports.unit, sql.placeholder("unit")))
    .prepare(),
);

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

/** The last assessment of a unit that was made before a day, for a day before it; null: none was. */
export async function issuedBefore(
  { q, assessments }: Store,
  unit: string,
  day: string,
): Promise<Pick<AssessmentRow, "asOf" | "assessment"> | null> {
  const [row] = await q
    .select({ asOf: assessments.asOf, assessment: assessments.assessment })
    .from(assessments)
    .where(and(eq(assessments.unit, unit), lt(assessments.madeAt, `${day}T00:00:00.000Z`), lt(assessments.asOf, day)))
    .orderBy(desc(assessments.madeAt), desc(assessments.id))
    .limit(1);
  return row ?? null;
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
  // Nothing but the format is asked for: its index alone answers, and no report is read.
  const [row] = await q
    .select({ format: reports.format })
    .from(reports)
    .where(ne(reports.format, reportFormat))
    .limit(1);
  return row !== undefined;
}

/** The oldest as-of date among the reports in force; null: there is none. */
export async function keptAsOf({ q, fleetRows }: Store): Promise<string | null> {
  const [row] = await q.select({ asOf: min(fleetRows.asOf) }).from(fleetRows);
  return row?.asOf ?? null;
}
