import type { Table } from "drizzle-orm";
import type { BaseSQLiteDatabase } from "drizzle-orm/sqlite-core";
import type { Schema } from "./schema.ts";
import { openSqlite } from "./sqlite.ts";

/** What queries are written against; every builder is awaited, whichever dialect answers. */
export type Q = BaseSQLiteDatabase<"async", unknown, Schema>;

/** A row to insert, by the names that the table's columns have in the schema. */
export type BulkRow = Readonly<Record<string, unknown>>;

/** An open store: its tables, a connection to read with, and the two ways to write. */
export interface Store extends Schema {
  readonly dialect: "sqlite";
  /** For reading. Never sees what an open transaction has not committed (but for `:memory:`, one connection). */
  readonly q: Q;
  /**
   * Carries out `work` whole or not at all, one writer at a time. Use the `q` given for all of it; a `tx` inside a
   * `tx` throws. Keep it short: other processes wait meanwhile.
   */
  tx<T>(work: (q: Q) => Promise<T>): Promise<T>;
  /** Carries out the statements in their order, all or none. */
  atomically(make: (q: Q) => readonly PromiseLike<unknown>[]): Promise<void>;
  /** Stands for all that `q` reads now: another as soon as any process has committed a change. */
  version(): string;
  /** Stands for what other processes have committed: another as soon as any of them commits a change. */
  othersVersion(): string;
  /** Inserts many rows of one shape fast; inside a `tx`, with its `q`. Columns missing from `columns` stay null. */
  bulkInsert(q: Q, table: Table, columns: readonly string[], rows: readonly BulkRow[]): Promise<void>;
  close(): Promise<void>;
}

/**
 * Opens the store in `file` (its folder is made where it is missing) and brings its tables up to date.
 * `:memory:` keeps nothing. Throws a `StoreError` for what the person at the machine can put right: a database from a
 * newer version, a file that is none, a folder that cannot be written.
 */
export function openStore(file: string): Promise<Store> {
  return openSqlite(file);
}
