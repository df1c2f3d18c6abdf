import { setImmediate as breathe } from "node:timers/promises";
import { eq, inArray } from "drizzle-orm";
import { chunkSize } from "./chunks.ts";
import { factKinds } from "./fact-kinds.ts";
import { deleteOriginals } from "./import-originals.ts";
import type { Store } from "./store.ts";

/**
 * Deletes all rows, issues and kept files of a discarded import, for they can never become visible. Batch by batch, so that nobody
 * waits for it; being killed in between does no harm.
 */
export async function purgeImport(store: Store, importId: string): Promise<void> {
  const { imports, importIssues } = store;
  const [row] = await store.q.select().from(imports).where(eq(imports.id, importId));
  if (row?.state !== "discarded") return;
  // Readings go with their tests.
  const tables = [store.tests, ...Object.values(factKinds).map((kind) => store[kind.table]), importIssues];
  for (const table of tables as unknown as (typeof store.tests)[]) {
    await deleteAll(store, (q) => {
      const some = q.select({ id: table.id }).from(table).where(eq(table.importId, importId)).limit(chunkSize);
      return q.delete(table).where(inArray(table.id, some)).returning({ id: table.id });
    });
  }
  await deleteOriginals(store, importId);
  await store.tx((q) => Promise.resolve(q.update(imports).set({ purged: true }).where(eq(imports.id, importId))));
}

type Delete = (q: Store["q"]) => PromiseLike<readonly unknown[]>;

async function deleteAll(store: Store, remove: Delete): Promise<void> {
  while ((await store.tx(async (q) => await remove(q))).length > 0) await breathe();
}
