import type { DisposalTold } from "../../../db/disposal-history.ts";
import type { NoteRow } from "../../../db/notes.ts";
import type { StatusTold } from "../../../db/status-history.ts";
import type { TestEvent } from "../../../db/test-history.ts";
import { type CsvTable, csvTable } from "../../../lib/outtake/csv-table.ts";
import { historySteps } from "./test-words.ts";

/** What people recorded of a unit, as files: newest first, instants in UTC, values as they are kept. */

export const notesTable = (notes: readonly NoteRow[]): CsvTable =>
  csvTable(notes, {
    unit: ({ unit }) => unit,
    date: ({ date }) => date,
    by: ({ by }) => by,
    at: ({ at }) => at,
    note: ({ text }) => text,
    withdrawn_by: ({ withdrawnBy }) => withdrawnBy,
    withdrawn_at: ({ withdrawnAt }) => withdrawnAt,
  });

export const statusTable = (told: readonly StatusTold[]): CsvTable =>
  csvTable(told, {
    at: ({ at }) => at,
    by: ({ by }) => by,
    status: ({ status }) => status,
    reason: ({ reason }) => reason,
    import: ({ importId }) => importId,
    undone_by: ({ undoneBy }) => undoneBy,
  });

export const disposalTable = (told: readonly DisposalTold[]): CsvTable =>
  csvTable(told, {
    at: ({ at }) => at,
    by: ({ by }) => by,
    disposal_date: ({ date }) => date,
    import: ({ importId }) => importId,
    undone_by: ({ undoneBy }) => undoneBy,
  });

/** The history of one test. `events` in the order of the commits. */
export const testHistoryTable = (events: readonly TestEvent[]): CsvTable =>
  csvTable(historySteps(events, { number: String, date: String }).toReversed(), {
    at: ({ at }) => at,
    by: ({ by }) => by,
    what: ({ what }) => what,
    why: ({ why }) => why,
    import: ({ importId }) => importId,
    undone_by: ({ undone }) => undone?.by ?? null,
    undone_at: ({ undone }) => undone?.at ?? null,
  });
