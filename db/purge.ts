import { setImmediate as breathe } from "node:timers/promises";
import { and, eq, inArray, ne, notExists, sql } from "drizzle-orm";
import { chunkSize } from "./chunks.ts";
import { factKinds } from "./fact-kinds.ts";
import { standing } from "./schema-facts.ts";
import { factTable } from "./staging-facts.ts";
import type { Store } from "./store.ts";

/**
 * Deletes rows of an import that can never become visible: all of a discarded one, the known and the refused of a
 * committed one. Batch by batch, so that nobody waits for it; being killed in between does no harm.
 */
export async function purgeImport(store: Store, importId: string): Promise<void> {
  const { imports, importIssues } = store;
  const [row] = await store.q.select().from(imports).where(eq(imports.id, importId));
  if (row?.state !== "committed" && row?.state !== "discarded") return;
  const whole = row.state === "discarded";
  while (await (whole ? deleteTests(store, importId) : deleteIdleReadings(store, importId))) await breathe();
  for (const kind of Object.values(factKinds)) {
    const table = factTable(store, kind);
    // Written out, not as a parameter: what can never become visible is not asked for often enough for an index.
    const idle = whole ? undefined : sql`${table.standing} >= 2`;
    await deleteAll(store, (q) =>
      q
        .delete(table)
        .where(
          inArray(
            table.id,
            q
              .select({ id: table.id })
              .from(table)
              .where(and(eq(table.importId, importId), idle))
              .limit(chunkSize),
          ),
        )
        .returning({ id: table.id }),
    );
  }
  if (whole) {
    await deleteAll(store, (q) =>
      q
        .delete(importIssues)
        .where(
          inArray(
            importIssues.id,
            q
              .select({ id: importIssues.id })
              .from(importIssues)
              .where(eq(importIssues.importId, importId))
              .limit(chunkSize),
          ),
        )
        .returning({ id: importIssues.id }),
    );
  }
  await store.tx((q) => Promise.resolve(q.update(imports).set({ purged: true }).where(eq(imports.id, importId))));
}

type Delete = (q: Store["q"]) => PromiseLike<readonly unknown[]>;

async function deleteAll(store: Store, remove: Delete): Promise<void> {
  while ((await store.tx(async (q) => await remove(q))).length > 0) await breathe();
}

/** Some hundred tests with their readings; false: none is left. */
function deleteTests(store: Store, importId: string): Promise<boolean> {
  const { tests } = store;
  return store.tx(async (q) => {
    const some = q.select({ id: tests.id }).from(tests).where(eq(tests.importId, importId)).limit(chunkSize);
    const gone = await q.delete(tests).where(inArray(tests.id, some)).returning({ id: tests.id });
    return gone.length > 0;
  });
}

/** A test left without readings goes too, unless it corrects what is known of the test as a whole. */
function deleteIdleReadings(store: Store, importId: string): Promise<boolean> {
  const { tests, readings } = store;
  // Written out, not as a parameter, so that the index on idle readings serves.
  const idle = sql`${readings.standing} >= 2`;
  return store.tx(async (q) => {
    const rows = await q
      .selectDistinct({ id: readings.testId })
      .from(readings)
      .innerJoin(tests, eq(tests.id, readings.testId))
      .where(and(idle, eq(tests.importId, importId)))
      .limit(chunkSize);
    const ids = rows.map((row) => row.id);
    if (ids.length === 0) return false;
    await q.delete(readings).where(and(inArray(readings.testId, ids), idle));
    const left = q.select({ one: sql`1` }).from(readings).where(eq(readings.testId, tests.id));
    await q.delete(tests).where(and(inArray(tests.id, ids), ne(tests.standing, standing.changed), notExists(left)));
    return true;
  });
}
