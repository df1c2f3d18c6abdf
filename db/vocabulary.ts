import * as L from "drizzle-orm/sqlite-core";

/**
 * The column words that the schema is built from. Another dialect gets a twin of this object whose columns give the
 * same JavaScript types; no query then changes. Identifiers are made by the app, never by the database. Calendar dates
 * and instants are ISO 8601 text, which sorts as time does.
 */
export const sqliteVocabulary = {
  table: L.sqliteTable,
  unique: L.uniqueIndex,
  index: L.index,
  primaryKey: L.primaryKey,
  id: () => L.integer().primaryKey(),
  key: () => L.text().primaryKey(),
  int: () => L.integer(),
  real: () => L.real(),
  text: () => L.text(),
  /** Text out of a closed list of words. */
  word: <W extends string>() => L.text().$type<W>(),
  wordKey: <W extends string>() => L.text().$type<W>().primaryKey(),
  bool: () => L.integer({ mode: "boolean" }),
  /** Calendar date, `YYYY-MM-DD`. */
  date: () => L.text(),
  /** Moment in UTC, `YYYY-MM-DDTHH:MM:SS.sssZ`. */
  instant: () => L.text(),
  bytes: () => L.blob({ mode: "buffer" }),
  json: <T>() => L.text({ mode: "json" }).$type<T>(),
};

export type Vocabulary = typeof sqliteVocabulary;
