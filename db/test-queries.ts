import { and, asc, eq, exists, inArray, ne, or, type SQL, sql } from "drizzle-orm";
import { forChunks } from "./chunks.ts";
import type { Schema } from "./schema.ts";
import { standing } from "./schema-facts.ts";
import { tellsWhole } from "./schema-imports.ts";
import type { Q, Store } from "./store.ts";
import type { ReadingRow, TestLayer, TestRow } from "./test-layers.ts";
import { undoneBelow } from "./visible.ts";

/** The committed layers of tests that fulfil `where` which may tell anything, by the key of the test. */
export async function committedLayers(
  store: Store,
  q: Q,
  { keys, except, where }: { keys?: readonly string[]; except?: string; where?: SQL },
): Promise<Map<string, TestLayer[]>> {
  const { tests, readings: read, imports } = store;
  const moreThanKnown = q
    .select({ one: sql`1` })
    .from(read)
    .where(and(eq(read.testId, tests.id), ne(read.standing, standing.known)));
  // Where nothing below it is gone, a test that is known with all its readings adds nothing.
  const mayStand = or(
    ne(tests.standing, standing.known),
    exists(moreThanKnown),
    undoneBelow(store, q, tests as unknown as Schema["depotFacts"]),
  );
  const ask = (condition: SQL | undefined) =>
    q
      .select({ test: tests, rank: imports.rank, takeChanges: imports.takeChanges, origin: imports.origin })
      .from(tests)
      .innerJoin(imports, eq(imports.id, tests.importId))
      .where(
        and(
          condition,
          eq(imports.state, "committed"),
          mayStand,
          except === undefined ? undefined : ne(imports.id, except),
        ),
      )
      .orderBy(asc(tests.factKey));
  const rows = keys ? await forChunks(keys, (part) => ask(inArray(tests.factKey, part))) : await ask(where);
  const readings = await readingsOf(
    store,
    q,
    rows.map(({ test }) => test),
  );
  const byKey = new Map<string, TestLayer[]>();
  for (const { test, rank, takeChanges, origin } of rows) {
    const whole = tellsWhole(origin);
    const layer = { test, readings: readings.get(test.id) ?? [], rank: rank ?? 0, takeChanges, whole };
    const layers = byKey.get(test.factKey);
    if (layers) layers.push(layer);
    else byKey.set(test.factKey, [layer]);
  }
  return byKey;
}

export async function readingsOf(store: Store, q: Q, tests: readonly TestRow[]): Promise<Map<number, ReadingRow[]>> {
  const { readings } = store;
  const rows = await forChunks(
    tests.map((test) => test.id),
    (part) => q.select().from(readings).where(inArray(readings.testId, part)),
  );
  const byTest = new Map<number, ReadingRow[]>();
  for (const row of rows) {
    const of = byTest.get(row.testId);
    if (of) of.push(row);
    else byTest.set(row.testId, [row]);
  }
  return byTest;
}
