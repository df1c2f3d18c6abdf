import { type Column, type SQL, sql } from "drizzle-orm";
import { asNumber, searchable, searchWords, withoutKind } from "./searching.ts";

const literal = (text: string): string => text.replace(/[\\%_]/g, "\\$&");

const contains = (column: Column | SQL, word: string): SQL => sql`${column} like ${`%${literal(word)}%`} escape '\\'`;

/**
 * That a column of searchable text holds every word of a search, each anywhere; a number also without its dashes, see `searchTextOf`. A word that says
 * what kind of thing is looked for ("unit v-109") may be missing.
 */
export const containsWords = (column: Column | SQL, search: string, kind: string): SQL[] => {
  return withoutKind(searchWords(search), kind).map((word) => {
    const plain = contains(column, word);
    const number = asNumber(word);
    return number === null || number === word ? plain : sql`(${plain} or ${contains(column, number)})`;
  });
};

/** Whether a column begins with a text, in upper or lower case; null where the column is. */
export const startsWith = (column: Column, text: string): SQL =>
  sql`lower(${column}) like ${`${literal(searchable(text).trim())}%`} escape '\\'`;
