import type { RepairFact } from "../lib/schema/facts.ts";
import type { PhotoType } from "../lib/schema/photo.ts";
import type { RepairScope } from "../lib/schema/words.ts";
import type { ImportTables } from "./schema-imports.ts";
import type { Vocabulary } from "./vocabulary.ts";

/** Photos that people give with a repair's findings: shown while an import that tells of the repair stands. Nothing is deleted. */
export function attachmentTables(v: Vocabulary, { imports }: ImportTables) {
  const attachments = v.table(
    "attachments",
    {
      id: v.id(),
      /** The import that told the repair when the photo was given; the repair by its own key. */
      importId: v
        .text()
        .notNull()
        .references(() => imports.id),
      unit: v.text().notNull(),
      date: v.date().notNull(),
      scope: v.word<RepairScope>().notNull(),
      cylinders: v.json<RepairFact["cylinders"]>().notNull(),
      name: v.text().notNull(),
      /** Found out from its first bytes, never taken from the browser. */
      type: v.word<PhotoType>().notNull(),
      size: v.int().notNull(),
      by: v.text().notNull(),
      at: v.instant().notNull(),
      /** null: it is shown. */
      withdrawnAt: v.instant(),
      withdrawnBy: v.text(),
    },
    (t) => [v.index("attachments_unit").on(t.unit), v.index("attachments_import").on(t.importId)],
  );

  /** Its bytes, in parts of a size that one row may well have. */
  const attachmentParts = v.table(
    "attachment_parts",
    {
      attachmentId: v
        .int()
        .notNull()
        .references(() => attachments.id, { onDelete: "cascade" }),
      /** From 0, ascending. */
      part: v.int().notNull(),
      bytes: v.bytes().notNull(),
    },
    (t) => [v.primaryKey({ columns: [t.attachmentId, t.part] })],
  );

  return { attachments, attachmentParts };
}
