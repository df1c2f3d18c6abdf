import { and, eq, gt, inArray, max } from "drizzle-orm";
import { forChunks } from "./chunks.ts";
import type { Store } from "./store.ts";
import { isTold } from "./visible.ts";

/** Units, of those given, with readings of cylinders above `cylinders`, and the highest of each. */
export async function readingsBeyond(
  store: Store,
  units: readonly string[],
  cylinders: number,
): Promise<Map<string, number>> {
  const { q, tests, readings, imports } = store;
  const rows = await forChunks(units, (part) =>
    q
      .select({ unit: tests.unit, highest: max(readings.cylinder) })
      .from(tests)
      .innerJoin(imports, eq(imports.id, tests.importId))
      .innerJoin(readings, eq(readings.testId, tests.id))
      .where(and(inArray(tests.unit, part), gt(readings.cylinder, cylinders), isTold(store, readings)))
      .groupBy(tests.unit),
  );
  return new Map(rows.map(({ unit, highest }) => [unit, highest ?? 0]));
}
