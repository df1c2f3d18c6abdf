import { AsyncLocalStorage } from "node:async_hooks";
import path from "node:path";
import Database from "better-sqlite3";
import { getTableColumns, getTableName, type Table } from "drizzle-orm";
import { drizzle } from "drizzle-orm/better-sqlite3";
import { toSnakeCase } from "drizzle-orm/casing";
import { makeFolder } from "./make-folder.mjs";
import { migrateSqlite, refuseForeign } from "./migrate-sqlite.ts";
import { sqliteSchema } from "./schema.ts";
import type { BulkRow, Q, Store } from "./store.ts";
import { asStoreError } from "./store-error.ts";

/** How long a connection waits for another process's transaction, which this store keeps short. */
const busyTimeoutMs = 10_000;
/** Measured: more rows a statement bring nothing. Times the widest table's columns it stays below SQLite's 32,766 parameters. */
const rowsPerStatement = 50;

const pragmas = [
  "journal_mode = WAL",
  "synchronous = FULL",
  "foreign_keys = ON",
  "cache_size = -16384",
  // 32 MiB: a batch of an import then seldom pays for copying the log into the file.
  "wal_autocheckpoint = 8192",
];

type Connection = Database.Database;

/** The only place that knows SQLite; see `openStore`. */
export async function openSqlite(file: string): Promise<Store> {
  const writer = connectWriter(file);
  const reader = file === ":memory:" ? writer : connect(file);
  closeAtExit([reader, writer]);
  const tx = oneWriterAtATime(writer, file);
  return {
    ...sqliteSchema,
    dialect: "sqlite",
    q: queriesOn(reader),
    tx: tx.run,
    atomically: (make) =>
      tx.run(async (q) => {
        for (const statement of make(q)) await statement;
      }),
    version: versionOf(reader),
    othersVersion: othersVersionOf(writer),
    bulkInsert: bulkInserter(writer),
    close: async () => {
      await tx.settled();
      for (const connection of [reader, writer]) {
        connection.close();
        open.delete(connection);
      }
    },
  };
}

/** SQLite counts the commits of other connections and the changes of this one, each where the other does not. */
function versionOf(connection: Connection): () => string {
  const foreign = connection.prepare("PRAGMA data_version").pluck();
  const own = connection.prepare("SELECT total_changes()").pluck();
  return () => `${foreign.get()} ${own.get()}`;
}

/** Of the connection that alone writes for this process: the commits of all others are other processes'. */
function othersVersionOf(writer: Connection): () => string {
  const foreign = writer.prepare("PRAGMA data_version").pluck();
  return () => String(foreign.get());
}

const open = new Set<Connection>();

function closeOpen(): void {
  for (const connection of open) connection.close();
  open.clear();
}

/**
 * Closes the connections when the process ends with its store open, as a server does that is told to stop: the last to
 * close brings the log into the database and takes it away, so that one file is all there is to copy.
 */
function closeAtExit(connections: readonly Connection[]): void {
  process.off("exit", closeOpen).once("exit", closeOpen);
  for (const connection of connections) open.add(connection);
}

function connect(file: string): Connection {
  const connection = new Database(file, { timeout: busyTimeoutMs });
  try {
    // Before the pragmas, for the first of them writes to the file.
    refuseForeign(connection, file);
    for (const pragma of pragmas) connection.pragma(pragma);
    return connection;
  } catch (error) {
    connection.close();
    throw error;
  }
}

function connectWriter(file: string): Connection {
  let connection: Connection | undefined;
  try {
    if (file !== ":memory:") makeFolder(path.dirname(path.resolve(file)));
    connection = connect(file);
    migrateSqlite(connection, file);
    return connection;
  } catch (error) {
    connection?.close();
    throw asStoreError(error, file);
  }
}

// Drizzle types better-sqlite3 as synchronous; its builders can be awaited all the same, as another dialect's must be.
const queriesOn = (connection: Connection): Q =>
  drizzle(connection, { schema: sqliteSchema, casing: "snake_case" }) as unknown as Q;

/**
 * Whose transactions the running code is within. One for all stores, however many a process opens: from its first use on a
 * storage is asked at every promise that is made.
 */
const within = new AsyncLocalStorage<readonly Connection[]>();

function oneWriterAtATime(writer: Connection, file: string): { run: Store["tx"]; settled: () => Promise<unknown> } {
  const q = queriesOn(writer);
  let tail: Promise<unknown> = Promise.resolve();

  const carryOut = async <T>(work: (q: Q) => Promise<T>): Promise<T> => {
    try {
      writer.exec("BEGIN IMMEDIATE");
      const result = await work(q);
      writer.exec("COMMIT");
      return result;
    } catch (error) {
      if (writer.inTransaction) writer.exec("ROLLBACK");
      // A disk that is full, or another program's lock, may stand in the way at any moment, not only at the opening.
      throw error instanceof Database.SqliteError ? asStoreError(error, file) : error;
    }
  };

  return {
    run: (work) => {
      const outer = within.getStore() ?? [];
      // The inner one would wait for the outer one, which waits for the inner one.
      if (outer.includes(writer))
        return Promise.reject(new Error("a tx inside a tx: use the q that the outer one gave"));
      const run = tail.then(() => within.run([...outer, writer], () => carryOut(work)));
      tail = run.catch(() => undefined);
      return run;
    },
    settled: () => tail,
  };
}

/** Prepared multi-row inserts: some twenty times as fast as building each statement anew. */
function bulkInserter(writer: Connection): Store["bulkInsert"] {
  const prepared = new Map<string, Database.Statement>();

  const prepare = (table: Table, columns: readonly string[], rows: number): Database.Statement => {
    const key = `${getTableName(table)} ${columns.join()} ${rows}`;
    const known = prepared.get(key);
    if (known) return known;
    const names = columns.map((column) => `"${columnName(table, column)}"`).join(", ");
    const tuple = `(${columns.map(() => "?").join(", ")})`;
    const sql = `insert into "${getTableName(table)}" (${names}) values ${Array(rows).fill(tuple).join(", ")}`;
    const statement = writer.prepare(sql);
    prepared.set(key, statement);
    return statement;
  };

  return async (_q, table, wanted, rows) => {
    // Files leave many columns blank all the way down; not naming those saves a third of the time.
    const columns = wanted.filter((column) => rows.some((row) => row[column] !== null && row[column] !== undefined));
    const encoders = columns.map((column) => encoderOf(table, column));
    for (let start = 0; start < rows.length; start += rowsPerStatement) {
      const batch = rows.slice(start, start + rowsPerStatement);
      prepare(table, columns, batch.length).run(parametersOf(batch, columns, encoders));
    }
  };
}

/** null: the value goes in as it is. */
type Encoder = ((value: unknown) => unknown) | null;

// Plain loops: this runs once for every value of an import.
function parametersOf(rows: readonly BulkRow[], columns: readonly string[], encoders: readonly Encoder[]): unknown[] {
  const parameters = new Array<unknown>(rows.length * columns.length);
  let at = 0;
  for (let r = 0; r < rows.length; r++) {
    const row = rows[r]!;
    for (let c = 0; c < columns.length; c++) {
      const value = row[columns[c]!];
      const encode = encoders[c];
      parameters[at++] = value === null || value === undefined ? null : encode ? encode(value) : value;
    }
  }
  return parameters;
}

function columnOf(table: Table, column: string) {
  const found = getTableColumns(table)[column];
  if (!found) throw new Error(`table ${getTableName(table)} has no column ${column}`);
  return found;
}

function columnName(table: Table, column: string): string {
  const { name, keyAsName } = columnOf(table, column);
  return keyAsName ? toSnakeCase(name) : name;
}

function encoderOf(table: Table, column: string): Encoder {
  const found = columnOf(table, column);
  if (found.dataType === "string" || found.dataType === "number") return null;
  return (value) => found.mapToDriverValue(value);
}
