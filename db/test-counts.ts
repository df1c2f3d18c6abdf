import { countDistinct, eq } from "drizzle-orm";
import type { Store } from "./store.ts";

/** How many tests are known of each unit that has any. */
export async function testCounts({ q, tests, imports }: Store): Promise<Map<string, number>> {
  const rows = await q
    .select({ unit: tests.unit, tests: countDistinct(tests.factKey) })
    .from(tests)
    .innerJoin(imports, eq(imports.id, tests.importId))
    .where(eq(imports.state, "committed"))
    .groupBy(tests.unit);
  return new Map(rows.map((row) => [row.unit, row.tests]));
}
