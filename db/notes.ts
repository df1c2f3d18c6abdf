import { desc, eq, sql } from "drizzle-orm";
import type { NoteGiven } from "../lib/schema/note.ts";
import { recordActivityWith } from "./activity.ts";
import { takeIds } from "./meta.ts";
import { preparedFor } from "./prepared.ts";
import type { Schema } from "./schema.ts";
import type { Store } from "./store.ts";

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
