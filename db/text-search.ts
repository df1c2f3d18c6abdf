import { type Column, type SQL, sql } from "drizzle-orm";
import { searchable } from "./fleet-row.ts";

/** That a column of searchable text holds every word of a search, each anywhere. */
export const containsWords = (column: Column, search: string): SQL[] =>
  searchable(search)
    .split(/\s+/)
    .filter(Boolean)
    .map((word) => sql`${column} like ${`%${word.replace(/[\\%_]/g, "\\$&")}%`} escape '\\'`);
