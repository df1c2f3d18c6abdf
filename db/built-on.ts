import { and, asc, desc, eq, gt, inArray } from "drizzle-orm";
import { keyOf, testKeyColumns } from "./fact-kinds.ts";
import type { ImportRow } from "./imports.ts";
import { standing } from "./schema-facts.ts";
import type { Q, Store } from "./store.ts";
import { readingsOf } from "./test-queries.ts";

/**
 * The last standing import that corrects or withdraws what a correction told under another name or as another cylinder;
 * null: there is none. Without the one below it the old name would count again, and what was made of the new one beside
 * it: one test twice. Gives its title, or the first of its files. Files tell of what was made apart, and are left alone.
 */
export async function builtOn(store: Store, q: Q, row: ImportRow): Promise<string | null> {
  const { imports, importFiles, judgements, tests } = store;
  if (row.origin === "file") return null;
  const withdrawn = await q
    .select({ cylinder: judgements.cylinder })
    .from(judgements)
    .where(and(eq(judgements.importId, row.id), eq(judgements.verdict, "withdrawn")));
  const own = withdrawn.length === 0 ? [] : await q.select().from(tests).where(eq(tests.importId, row.id));
  if (own.length === 0) return null;
  const readings = await readingsOf(store, q, own);
  const cylindersOf = new Map(
    own.map(({ id, factKey }) => [factKey, new Set((readings.get(id) ?? []).map(({ cylinder }) => cylinder))]),
  );
  const isRenamed = withdrawn.some(({ cylinder }) => cylinder === null);
  const isLater = and(eq(imports.state, "committed"), gt(imports.rank, row.rank ?? 0));

  const judged = await q
    .select({ judgement: judgements })
    .from(judgements)
    .innerJoin(imports, eq(imports.id, judgements.importId))
    .where(
      and(
        inArray(judgements.unit, [...new Set(own.map(({ unit }) => unit))]),
        eq(judgements.verdict, "withdrawn"),
        isLater,
      ),
    );
  const withdrawing = judged.filter(({ judgement }) => {
    const cylinders = cylindersOf.get(keyOf(judgement, testKeyColumns));
    return cylinders !== undefined && (judgement.cylinder === null || cylinders.has(judgement.cylinder));
  });

  const told = await q
    .select({ test: tests })
    .from(tests)
    .innerJoin(imports, eq(imports.id, tests.importId))
    .where(and(inArray(tests.factKey, [...cylindersOf.keys()]), eq(imports.takeChanges, true), isLater));
  const toldReadings = await readingsOf(
    store,
    q,
    told.map(({ test }) => test),
  );
  const correcting = told.filter(
    ({ test }) =>
      (isRenamed && test.standing === standing.changed) ||
      (toldReadings.get(test.id) ?? []).some(
        (reading) => reading.standing === standing.changed && cylindersOf.get(test.factKey)?.has(reading.cylinder),
      ),
  );

  const ids = [
    ...withdrawing.map(({ judgement }) => judgement.importId),
    ...correcting.map(({ test }) => test.importId),
  ];
  if (ids.length === 0) return null;
  const [last] = await q
    .select({ id: imports.id, name: importFiles.name })
    .from(imports)
    .innerJoin(importFiles, eq(importFiles.importId, imports.id))
    .where(inArray(imports.id, ids))
    .orderBy(desc(imports.rank), asc(importFiles.fileNo))
    .limit(1);
  return last === undefined ? null : (last.name ?? last.id);
}
