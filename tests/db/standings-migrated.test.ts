import Database from "better-sqlite3";
import { readMigrationFiles } from "drizzle-orm/migrator";
import { expect, it } from "vitest";
import { changedUnits, unitIssues } from "@/db/changes.ts";
import { migrationsFolder } from "@/db/migrations-folder.ts";
import { temporaryFile, temporaryStore } from "./made-up.ts";
import { projected, report } from "./made-up-report.ts";

/** A store as it was before standings had columns of their own. */
function olderStore(file: string): Database.Database {
  const old = new Database(file);
  old.pragma(`application_id = ${0x426f7265}`);
  old.exec("create table __drizzle_migrations (hash text not null, created_at numeric)");
  const note = old.prepare("insert into __drizzle_migrations (hash, created_at) values (?, ?)");
  for (const { sql, hash, folderMillis } of readMigrationFiles({ migrationsFolder: migrationsFolder() })) {
    if (sql.some((statement) => statement.includes("`departures`"))) break;
    for (const statement of sql) old.exec(statement);
    note.run(hash, folderMillis);
  }
  return old;
}

it("tells of assessments kept before standings had columns where the units stood, and by how little they are explained", async () => {
  const file = temporaryFile();
  const old = olderStore(file);
  const { assessment } = report("V-1", {
    assessment: {
      band: "plan",
      questions: ["Was it repaired?"],
      pools: ["p1"],
      repairs: { topEnd: projected("2027-03-01", "2028-02-29"), bottomEnd: projected("2030-01-01") },
    },
  });
  old
    .prepare(
      "insert into assessments (id, unit, as_of, made_at, because, band, assessment) values (?, ?, ?, ?, ?, ?, ?)",
    )
    .run(7, "V-1", "2026-06-30", "2026-06-30T08:00:00.000Z", "import", "plan", JSON.stringify(assessment));
  old.close();

  const store = await temporaryStore(file);
  const [issue] = await unitIssues(store, "V-1", 9);
  expect(issue).toEqual({
    id: 7,
    unit: "V-1",
    asOf: "2026-06-30",
    madeAt: "2026-06-30T08:00:00.000Z",
    because: "import",
    importId: null,
    band: "plan",
    lastTestDate: "2026-03-01",
    questions: 1,
    topEnd: { status: "projected", p10: "2027-03-01", p50: "2028-02-29", p90: null },
    bottomEnd: { status: "projected", p10: "2030-01-01", p50: null, p90: null },
    basis: { perDay: 5, meterUnit: "h", pools: ["p1"] },
  });
  const [kept] = await store.q.select().from(store.assessments);
  expect(kept?.bandPlace).toBe(1);
  const asked = { asOf: "2026-06-30", horizonEnd: "2031-06-30", since: "2026-07-01T00:00:00.000Z" };
  const all = { kind: null, direction: null, depot: null, page: 1, pageSize: 9 };
  expect((await changedUnits(store, asked, all)).units).toEqual([]);
});
