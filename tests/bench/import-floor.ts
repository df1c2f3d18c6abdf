import { createReadStream } from "node:fs";
import Database from "better-sqlite3";
import Papa from "papaparse";
import { openStore } from "../../db/store.ts";

/** The least that an import of the file must cost: the parser alone, and the database alone. */

/** Reads the file through papaparse piece by piece and does nothing with its rows. Gives their count. */
export function parseAlone(file: string): Promise<number> {
  return new Promise((resolve, reject) => {
    let rows = 0;
    Papa.parse<string[]>(createReadStream(file, { highWaterMark: 1 << 18, encoding: "utf8" }), {
      skipEmptyLines: true,
      chunk: ({ data }) => {
        rows += data.length;
      },
      complete: () => resolve(rows - 1),
      error: reject,
    });
  });
}

/** What an import left in a table: its filled columns and their values, row by row. */
interface Content {
  readonly table: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly unknown[])[];
}

export interface Imported {
  /** Rows that readings need: the import and its files. */
  readonly head: readonly Content[];
  readonly tests: Content;
  /** In the order of their tests. */
  readonly readings: Content;
}

/** The rows that an import filled the store with, to be inserted again by the floor. */
export function readImported(databaseFile: string): Imported {
  const database = new Database(databaseFile, { readonly: true });
  const content = (table: string, order: string): Content => {
    const rows = database.prepare(`select * from ${table} order by ${order}`).raw().all() as unknown[][];
    const names = database.prepare(`select * from ${table}`).columns();
    const filled = names.map((_, i) => i).filter((i) => rows.some((row) => row[i] !== null));
    return {
      table,
      columns: filled.map((i) => names[i]!.name),
      rows: rows.map((row) => filled.map((i) => row[i])),
    };
  };
  try {
    return {
      head: [content("imports", "id"), content("import_files", "file_no")],
      tests: content("tests", "id"),
      readings: content("readings", "test_id, cylinder"),
    };
  } finally {
    database.close();
  }
}

/** An import stages as many readings in a transaction. */
const readingsAtATime = 2000;

/**
 * Inserts the rows of an import into the project's own tables, migrated and empty, by prepared statements, under the
 * store's own pragmas and in transactions of the same size. Opening the database is not part of the time. Gives seconds.
 */
export async function insertAlone(databaseFile: string, { head, tests, readings }: Imported): Promise<number> {
  await (await openStore(databaseFile)).close();
  const database = new Database(databaseFile);
  for (const pragma of ["journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON"]) database.pragma(pragma);
  for (const pragma of ["cache_size = -16384", "wal_autocheckpoint = 8192"]) database.pragma(pragma);
  const inserter = ({ table, columns }: Content) => {
    const names = columns.map((column) => `"${column}"`).join(", ");
    return database.prepare(`insert into ${table} (${names}) values (${columns.map(() => "?").join(", ")})`);
  };
  try {
    const [insertTest, insertReading] = [inserter(tests), inserter(readings)];
    const testId = { ofTest: tests.columns.indexOf("id"), ofReading: readings.columns.indexOf("test_id") };
    let nextTest = 0;
    const insertSome = database.transaction((start: number) => {
      for (const reading of readings.rows.slice(start, start + readingsAtATime)) {
        while (nextTest === 0 || tests.rows[nextTest - 1]![testId.ofTest] !== reading[testId.ofReading]) {
          insertTest.run(tests.rows[nextTest++]);
        }
        insertReading.run(reading);
      }
    });
    const start = performance.now();
    for (const content of head) for (const row of content.rows) inserter(content).run(row);
    for (let at = 0; at < readings.rows.length; at += readingsAtATime) insertSome(at);
    return (performance.now() - start) / 1000;
  } finally {
    database.close();
  }
}
