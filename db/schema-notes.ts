import type { Vocabulary } from "./vocabulary.ts";

/** What people write about a unit by hand. Nothing is deleted: a note that is withdrawn stays written. */
export function noteTables(v: Vocabulary) {
  const notes = v.table(
    "notes",
    {
      id: v.id(),
      unit: v.text().notNull(),
      text: v.text().notNull(),
      /** The day that the note is about. */
      date: v.date().notNull(),
      by: v.text().notNull(),
      at: v.instant().notNull(),
      /** null: it stands. */
      withdrawnAt: v.instant(),
      withdrawnBy: v.text(),
    },
    (t) => [v.index("notes_unit").on(t.unit)],
  );
  return { notes };
}
