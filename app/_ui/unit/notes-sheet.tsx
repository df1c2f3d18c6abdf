import type { NoteRow } from "@/db/notes.ts";
import type { IsoDate } from "@/lib/schema/facts.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { dateIn } from "../../_jobs/as-of.ts";
import { CsvLink } from "../csv-link.tsx";
import { NameGate } from "../name-gate.tsx";
import { Sheet } from "../sheet.tsx";
import { unitFilesAddress } from "../unit-address.ts";
import { NoteChange } from "./note-change.client.tsx";
import { NoteForm } from "./note-form.client.tsx";

export interface NotesShown {
  readonly notes: readonly NoteRow[];
  /** From `viewerName()`. */
  readonly viewer: string | null;
  /** The fleet's date. */
  readonly today: IsoDate;
  /** The last day that a note may be about. */
  readonly latest: IsoDate;
  readonly timeZone: string;
}

/** What people wrote about a unit, the latest first, and a form to write more. */
export function NotesSheet(props: NotesShown & { readonly unit: string; readonly f: Formats }) {
  const { unit, notes, viewer, today, latest, timeZone, f } = props;
  const day = (instant: string) => f.date(dateIn(timeZone, new Date(instant)));
  return (
    <Sheet
      title="Notes"
      note="by people, with the day; nothing is deleted"
      controls={notes.length > 0 && <CsvLink href={`${unitFilesAddress(unit)}/notes`} of={`notes on ${unit}`} />}
      long
      id="notes"
    >
      <div className="notes">
        {notes.length === 0 ? (
          <p className="second">No note on {unit} yet.</p>
        ) : (
          <ol className="note-list" aria-label={`Notes on ${unit}`}>
            {notes.map((note) => (
              <li key={note.id} className="keep-together" data-withdrawn={note.withdrawnAt !== null}>
                <p className="note-head">
                  <strong>{f.date(note.date)}</strong>{" "}
                  <span className="second">
                    {note.by}
                    {day(note.at) !== f.date(note.date) && `, written ${day(note.at)}`}
                  </span>
                </p>
                {note.withdrawnAt === null ? (
                  <p className="note-text">{note.text}</p>
                ) : (
                  <details>
                    <summary>
                      Withdrawn {day(note.withdrawnAt)} by {note.withdrawnBy}
                    </summary>
                    <p className="note-text">{note.text}</p>
                  </details>
                )}
                {viewer !== null && (
                  <NoteChange unit={unit} note={note.id} withdrawn={note.withdrawnAt !== null}>
                    <span className="visually-hidden"> the note of {f.date(note.date)}</span>
                  </NoteChange>
                )}
              </li>
            ))}
          </ol>
        )}
        <div className="no-print">
          <NameGate name={viewer} why="Notes are kept with the name of the person who wrote them.">
            <NoteForm unit={unit} today={today} latest={latest} />
          </NameGate>
        </div>
      </div>
    </Sheet>
  );
}
