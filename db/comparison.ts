import { and, count, eq, sql } from "drizzle-orm";
import { compareFacts } from "./comparison-facts.ts";
import { compareTests } from "./comparison-tests.ts";
import { factKinds } from "./fact-kinds.ts";
import { factsVersion } from "./meta.ts";
import { standing } from "./schema-facts.ts";
import { assertStaging } from "./staging.ts";
import { factTable } from "./staging-facts.ts";
import type { Q, Store } from "./store.ts";

/** Rows of an import, as it stands beside what was visible when it was compared. */
export interface ImportCounts {
  readonly newRows: number;
  /** Said already, so they add nothing as long as what said it stands. */
  readonly knownRows: number;
  /** Say otherwise, or more, of something known, or hold only beside rows that do: they come with the changes. */
  readonly changedRows: number;
  /** Rows with an issue that refused them; those of a file refused as a whole are not counted (`refused` of the file). */
  readonly refusedRows: number;
  readonly warnedRows: number;
}

/**
 * Ends staging: compares every row with what is visible and counts. Nothing becomes visible. May be called again, as
 * when another import was committed meanwhile. `version`: that of the facts by which the rows were judged, where they were
 * judged before. Add the issues of all rows before, for the counts.
 */
export async function finishStaging(
  store: Store,
  importId: string,
  { version }: { readonly version?: number } = {},
): Promise<ImportCounts> {
  const { imports } = store;
  await assertStaging(store, store.q, importId);
  // Read before the comparison: a commit in between makes it older than what it is then compared with, never newer.
  const compared = version ?? (await factsVersion(store, store.q));
  const [row] = await store.q.select().from(imports).where(eq(imports.id, importId));
  const again = row?.comparedVersion !== null;
  await compareTests(store, { id: importId, origin: row?.origin ?? "file" }, { again });
  for (const kind of Object.values(factKinds)) await compareFacts(store, importId, kind);
  return store.tx(async (q) => {
    await assertStaging(store, q, importId);
    const counts = await countByFile(store, q, importId);
    await q
      .update(imports)
      .set({ state: "staged", comparedVersion: compared, ...counts })
      .where(eq(imports.id, importId));
    return counts;
  });
}

/** By standing. */
const words = ["newRows", "changedRows", "knownRows", "changedRows"] as const;
type Tally = { -readonly [K in keyof ImportCounts]: number };
const nothing = (): Tally => ({ newRows: 0, knownRows: 0, changedRows: 0, refusedRows: 0, warnedRows: 0 });

async function countByFile(store: Store, q: Q, importId: string): Promise<ImportCounts> {
  const { importFiles } = store;
  const files = await q.select().from(importFiles).where(eq(importFiles.importId, importId));
  const total = nothing();
  const byNo = new Map(files.map((file) => [file.fileNo, nothing()]));
  const byName = new Map(files.map((file) => [file.name, byNo.get(file.fileNo)!]));
  const add = (tally: Tally | undefined, word: keyof Tally, rows: number) => {
    total[word] += rows;
    if (tally) tally[word] += rows;
  };
  for (const row of await standings(store, q, importId)) {
    const word = words[row.standing];
    if (word) add(byNo.get(row.fileNo), word, row.rows);
  }
  for (const row of await issueCounts(store, q, importId)) {
    add(byName.get(row.file), row.severity === "refused" ? "refusedRows" : "warnedRows", row.rows);
  }
  for (const [fileNo, tally] of byNo) {
    await q
      .update(importFiles)
      .set(tally)
      .where(and(eq(importFiles.importId, importId), eq(importFiles.fileNo, fileNo)));
  }
  return total;
}

interface StandingCount {
  readonly fileNo: number;
  readonly standing: number;
  readonly rows: number;
}

/** A reading that says nothing new counts as changed where the row changes what is known of its test. */
async function standings(store: Store, q: Q, importId: string): Promise<StandingCount[]> {
  const { tests, readings } = store;
  // Folded here: a database may take a `case` with parameters for another expression each time that it is written.
  const own = await q
    .select({ fileNo: readings.fileNo, test: tests.standing, reading: readings.standing, rows: count() })
    .from(tests)
    .innerJoin(readings, eq(readings.testId, tests.id))
    .where(eq(tests.importId, importId))
    .groupBy(readings.fileNo, tests.standing, readings.standing);
  const out: StandingCount[] = own.map(({ fileNo, test, reading, rows }) => {
    const changesItsTest = reading === standing.known && test === standing.changed;
    return { fileNo, standing: changesItsTest ? standing.changed : reading, rows };
  });
  for (const kind of Object.values(factKinds)) {
    const table = factTable(store, kind);
    out.push(
      ...(await q
        .select({ fileNo: table.fileNo, standing: table.standing, rows: count() })
        .from(table)
        .where(eq(table.importId, importId))
        .groupBy(table.fileNo, table.standing)),
    );
  }
  return out;
}

/** A row (in a list without lines, an entry) with two issues is one; an issue of the file as a whole is none. */
function issueCounts({ importIssues }: Store, q: Q, importId: string) {
  return q
    .select({
      file: importIssues.file,
      severity: importIssues.severity,
      rows: sql<number>`count(distinct coalesce(cast(${importIssues.line} as text), ${importIssues.entry}))`.mapWith(
        Number,
      ),
    })
    .from(importIssues)
    .where(and(eq(importIssues.importId, importId), sql`${importIssues.severity} in ('refused', 'warning')`))
    .groupBy(importIssues.file, importIssues.severity);
}
