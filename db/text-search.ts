import { type Column, type SQL, sql } from "drizzle-orm";
import { searchable } from "./fleet-row.ts";

const literal = (text: string): string => text.replace(/[\\%_]/g, "\\$&");

/** That a column of searchable text holds every word of a search, each anywhere. */
export const containsWords = (column: Column | SQL, search: string): SQL[] =>
  searchable(search)
    .split(/\s+/)
    .filter(Boolean)
    .map((word) => sql`${column} like ${`%${literal(word)}%`} escape '\\'`);

/** Whether a column begins with a text, in upper or lower case; null where the column is. */
export const startsWith = (column: Column, text: string): SQL =>
  sql`lower(${column}) like ${`${literal(searchable(text).trim())}%`} escape '\\'`;
