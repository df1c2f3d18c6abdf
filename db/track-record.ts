import { and, asc, count, eq, inArray, isNotNull, max, min } from "drizzle-orm";
import type { MeasureAssessment, UnitAssessment } from "../lib/schema/assessment.ts";
import { type LevelCase, type LimitCase, type TrackRecord, trackFormat } from "../lib/schema/track-record.ts";
import { chunks, forChunks } from "./chunks.ts";
import { remembered } from "./remembered.ts";
import type { Store } from "./store.ts";

/** There is one record. */
const only = 1;
const casesInRow = 500;

export interface KeptRecord {
  readonly basis: string;
  readonly madeAt: string;
  readonly record: TrackRecord;
}

/** The record that was made last; null: none yet, or none of the form that this program knows. */
export const keptTrackRecord = remembered("track-record", async (store: Store): Promise<KeptRecord | null> => {
  const { q, trackRecords } = store;
  const [row] = await q.select().from(trackRecords).where(isKnown(store));
  return row === undefined ? null : { basis: row.basis, madeAt: row.madeAt, record: row.record };
});

const isKnown = ({ trackRecords }: Store) => and(eq(trackRecords.id, only), eq(trackRecords.format, trackFormat));

/** What the record was made from; null: there is none. */
export async function trackRecordBasis(store: Store): Promise<string | null> {
  const { q, trackRecords } = store;
  const [row] = await q.select({ basis: trackRecords.basis }).from(trackRecords).where(isKnown(store));
  return row?.basis ?? null;
}

/** Keeps a record with the forecasts behind it in place of the last one. */
export function keepTrackRecord(
  store: Store,
  kept: KeptRecord,
  { levels, limits }: { readonly levels: readonly LevelCase[]; readonly limits: readonly LimitCase[] },
): Promise<void> {
  const { trackRecords, trackCases } = store;
  const rows = Array.from({ length: Math.ceil(Math.max(levels.length, limits.length) / casesInRow) }, (_, i) => ({
    place: i + 1,
    levels: levels.slice(i * casesInRow, (i + 1) * casesInRow),
    limits: limits.slice(i * casesInRow, (i + 1) * casesInRow),
  }));
  return store.tx(async (q) => {
    await q.delete(trackRecords);
    await q.delete(trackCases);
    await q.insert(trackRecords).values({ id: only, format: trackFormat, ...kept });
    await store.bulkInsert(q, trackCases, ["place", "levels", "limits"], rows);
  });
}

/** The forecasts behind the record, in order. */
export async function trackCases({
  q,
  trackCases: table,
}: Store): Promise<{ levels: LevelCase[]; limits: LimitCase[] }> {
  const rows = await q.select().from(table).orderBy(asc(table.place));
  return { levels: rows.flatMap((row) => row.levels), limits: rows.flatMap((row) => row.limits) };
}

/** What of an assessment is held against later tests. */
export interface IssuedRow {
  readonly unit: string;
  readonly asOf: string;
  readonly meter: UnitAssessment["meter"];
  readonly lastTestDate: string;
  readonly cylinders: readonly { readonly cylinder: number; readonly measures: readonly MeasureAssessment[] }[];
}

/** Assessments as they were issued, of some units: of each last test the first issue, which is what was told after it. */
export async function issuedAfterTests(store: Store, units: readonly string[]): Promise<IssuedRow[]> {
  const { q, assessments } = store;
  const firsts = await forChunks(units, (part) =>
    q
      .select({ id: min(assessments.id) })
      .from(assessments)
      .where(and(inArray(assessments.unit, part), isNotNull(assessments.lastTestDate)))
      .groupBy(assessments.unit, assessments.lastTestDate),
  );
  const ids = firsts.flatMap(({ id }) => id ?? []).sort((a, b) => a - b);
  const rows: IssuedRow[] = [];
  for (const part of chunks(ids, 50)) {
    const { id, unit, asOf, assessment } = assessments;
    const some = await q
      .select({ unit, asOf, assessment })
      .from(assessments)
      .where(inArray(id, [...part]))
      .orderBy(asc(id));
    for (const { assessment: of, ...row } of some) {
      if (of.lastTestDate === null) continue;
      // Causes and words are most of it, and judge nothing.
      const cylinders = of.cylinders.map(({ cylinder, measures }) => ({ cylinder, measures }));
      rows.push({ ...row, meter: of.meter, lastTestDate: of.lastTestDate, cylinders });
    }
  }
  return rows;
}

/** How many assessments were issued, and for which dates. */
export async function issuedSpan({ q, assessments }: Store): Promise<{
  readonly assessments: number;
  readonly from: string | null;
  readonly to: string | null;
}> {
  const [row] = await q
    .select({ assessments: count(), from: min(assessments.asOf), to: max(assessments.asOf) })
    .from(assessments);
  return { assessments: row?.assessments ?? 0, from: row?.from ?? null, to: row?.to ?? null };
}
