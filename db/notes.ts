import { asc, desc, eq, gt, sql } from "drizzle-orm";
import type { NoteGiven } from "../lib/schema/note.ts";
import type { WrittenNote } from "../lib/schema/written-house.ts";
import { recordActivityWith } from "./activity.ts";
import { chunkSize } from "./chunks.ts";
import { takeIds } from "./meta.ts";
import { preparedFor } from "./prepared.ts";
import type { Schema } from "./schema.ts";
import type { Q, Store } from "./store.ts";

export type NoteRow = Schema["notes"]["$inferSelect"];

interface Act {
  readonly by: string;
  readonly at: string;
}

/** Notes about a unit, the latest day first, those withdrawn among them. */
export async function notesOf(store: Store, unit: string): Promise<NoteRow[]> {
  return await notesAbout(store).all({ unit });
}

const notesAbout = preparedFor(({ q, notes }) =>
  q
    .select()
    .from(notes)
    .where(eq(notes.unit, sql.placeholder("unit")))
    .orderBy(desc(notes.date), desc(notes.id))
    .prepare(),
);

/** Every note, in the order in which they were written, some hundred at a time. */
export async function* allNotes({ q, notes }: Store): AsyncGenerator<readonly NoteRow[]> {
  for (let after = 0; ; ) {
    const rows = await q.select().from(notes).where(gt(notes.id, after)).orderBy(asc(notes.id)).limit(chunkSize);
    const last = rows.at(-1);
    if (last === undefined) return;
    yield rows;
    after = last.id;
  }
}

/** Puts notes back as another store of the app had them, within a transaction of the caller's. */
export async function putNotesWith(store: Store, q: Q, given: readonly WrittenNote[]): Promise<void> {
  let id = await takeIds(store, q, given.length);
  const rows = given.map((note) => ({ ...note, id: id++ }));
  if (rows[0]) await store.bulkInsert(q, store.notes, Object.keys(rows[0]), rows);
}

/** Keeps a note and gives its id. */
export function addNote(store: Store, unit: string, { text, date }: NoteGiven, { by, at }: Act): Promise<number> {
  return store.tx(async (q) => {
    const id = await takeIds(store, q, 1);
    await q.insert(store.notes).values({ id, unit, text, date, by, at });
    await recordActivityWith(store, q, { at, by, action: "note-added", about: unit, detail: { note: id } });
    return id;
  });
}

/** Withdraws a note, or puts a withdrawn one back. False: there is no such note, or it is so already. */
export function setNoteWithdrawn(
  store: Store,
  { id, withdrawn }: { readonly id: number; readonly withdrawn: boolean },
  { by, at }: Act,
): Promise<boolean> {
  const { notes } = store;
  return store.tx(async (q) => {
    const [note] = await q.select().from(notes).where(eq(notes.id, id));
    if (note === undefined || (note.withdrawnAt !== null) === withdrawn) return false;
    const change = withdrawn ? { withdrawnAt: at, withdrawnBy: by } : { withdrawnAt: null, withdrawnBy: null };
    await q.update(notes).set(change).where(eq(notes.id, id));
    const action = withdrawn ? "note-withdrawn" : "note-restored";
    await recordActivityWith(store, q, { at, by, action, about: note.unit, detail: { note: id } });
    return true;
  });
}
