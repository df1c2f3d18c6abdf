import { attachmentTables } from "./schema-attachments.ts";
import { courseTables } from "./schema-courses.ts";
import { derivedTables } from "./schema-derived.ts";
import { factTables } from "./schema-facts.ts";
import { houseTables } from "./schema-house.ts";
import { importTables, metaTable } from "./schema-imports.ts";
import { noteTables } from "./schema-notes.ts";
import { planTables } from "./schema-plan.ts";
import { trackTables } from "./schema-track.ts";
import { sqliteVocabulary, type Vocabulary } from "./vocabulary.ts";

function buildSchema(v: Vocabulary) {
  const importing = importTables(v);
  return {
    meta: metaTable(v),
    ...importing,
    ...factTables(v, importing),
    ...attachmentTables(v, importing),
    ...derivedTables(v),
    ...courseTables(v),
    ...trackTables(v),
    ...houseTables(v),
    ...noteTables(v),
    ...planTables(v),
  };
}

export const sqliteSchema = buildSchema(sqliteVocabulary);
export type Schema = typeof sqliteSchema;
