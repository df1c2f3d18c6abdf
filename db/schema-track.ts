import type { LevelCase, LimitCase, TrackRecord } from "../lib/schema/track-record.ts";
import type { Vocabulary } from "./vocabulary.ts";

/** How forecasts of the past turned out. All of it is derived and can be made again; pages only read it. */
export function trackTables(v: Vocabulary) {
  /** One row: the record that was made last. */
  const trackRecords = v.table("track_records", {
    id: v.id(),
    /** What it was made from: version of the facts and settings, as text that is compared as a whole. */
    basis: v.text().notNull(),
    /** `trackFormat` of the program that made it. */
    format: v.int().notNull(),
    madeAt: v.instant().notNull(),
    record: v.json<TrackRecord>().notNull(),
  });

  /** The forecasts behind it, some hundred a row, in the order in which they are told. */
  const trackCases = v.table("track_cases", {
    place: v.id(),
    levels: v.json<readonly LevelCase[]>().notNull(),
    limits: v.json<readonly LimitCase[]>().notNull(),
  });

  return { trackRecords, trackCases };
}
