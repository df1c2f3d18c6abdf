import type Database from "better-sqlite3";
import { readMigrationFiles } from "drizzle-orm/migrator";
import { migrationsFolder } from "./migrations-folder.ts";
import { newerVersion, notOurs } from "./store-error.ts";

/** Marks a file as ours in SQLite's own header: the letters "Bore". */
const applicationId = 0x426f7265;

/**
 * Brings the tables up to date in one transaction, so that two processes that start together do not both try. Refuses
 * a database that knows a migration which we do not, and a file that belongs to another program.
 */
export function migrateSqlite(connection: Database.Database, file: string): void {
  const known = readMigrationFiles({ migrationsFolder: migrationsFolder() });
  const hashes = new Set(known.map((migration) => migration.hash));
  connection.exec("BEGIN IMMEDIATE");
  try {
    claim(connection, file);
    connection.exec("create table if not exists __drizzle_migrations (hash text not null, created_at numeric)");
    const applied = connection.prepare("select hash from __drizzle_migrations").pluck().all() as string[];
    if (applied.some((hash) => !hashes.has(hash))) throw newerVersion(file);
    const note = connection.prepare("insert into __drizzle_migrations (hash, created_at) values (?, ?)");
    for (const migration of known.filter(({ hash }) => !applied.includes(hash))) {
      for (const statement of migration.sql) connection.exec(statement);
      note.run(migration.hash, migration.folderMillis);
    }
    connection.exec("COMMIT");
  } catch (error) {
    connection.exec("ROLLBACK");
    throw error;
  }
}

/** Refuses a database of another program, by reading alone; true: it is ours already, false: it is new. */
export function refuseForeign(connection: Database.Database, file: string): boolean {
  if (connection.pragma("application_id", { simple: true }) === applicationId) return true;
  const tables = connection.prepare("select count(*) from sqlite_schema").pluck().get() as number;
  if (tables > 0) throw notOurs(file);
  return false;
}

function claim(connection: Database.Database, file: string): void {
  if (refuseForeign(connection, file)) return;
  connection.pragma(`application_id = ${applicationId}`);
}
