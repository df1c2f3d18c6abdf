import { countDistinct, eq } from "drizzle-orm";
import type { Store } from "./store.ts";
import { isTold } from "./visible.ts";

/** How many tests are known of each unit that has any. */
export async function testCounts(store: Store): Promise<Map<string, number>> {
  const { q, tests, imports } = store;
  const rows = await q
    .select({ unit: tests.unit, tests: countDistinct(tests.factKey) })
    .from(tests)
    .innerJoin(imports, eq(imports.id, tests.importId))
    .where(isTold(store, tests))
    .groupBy(tests.unit);
  return new Map(rows.map((row) => [row.unit, row.tests]));
}
