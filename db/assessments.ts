import type { UnitReport } from "../lib/schema/report.ts";
import type { Schema } from "./schema.ts";
import type { AssessmentReason } from "./schema-derived.ts";
import type { Store } from "./store.ts";

export type AssessmentRow = Schema["assessments"]["$inferSelect"];

/**
 * Puts reports in force, and adds their assessments to the history, but for `day`: a new telling of the same forecast
 * replaces the report alone. A batch is one transaction: give some hundred at a time.
 */
export async function keepReports(
  store: Store,
  reports: readonly UnitReport[],
  { because, importId, at }: { because: AssessmentReason; importId?: string | null; at: string },
): Promise<void> {
  throw new Error("body follows");
}

/** Takes units off the Fleet page that are not known any more; their history stays. */
export async function dropReports(store: Store, units: readonly string[]): Promise<void> {
  throw new Error("body follows");
}

export async function unitReport(store: Store, unit: string): Promise<UnitReport | null> {
  throw new Error("body follows");
}

/** Assessments of a unit as they were issued, newest first. */
export async function assessmentHistory(store: Store, unit: string, limit: number): Promise<AssessmentRow[]> {
  throw new Error("body follows");
}

/** Units with a report in force, in the order of their names. */
export async function unitNames(store: Store): Promise<string[]> {
  throw new Error("body follows");
}

/** The oldest as-of date among the reports in force; null: there is none. */
export async function keptAsOf(store: Store): Promise<string | null> {
  throw new Error("body follows");
}
