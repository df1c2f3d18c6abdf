import { and, asc, eq, exists, gt, ne, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/sqlite-core";
import { chunkSize } from "./chunks.ts";
import type { Overlaps } from "./comparison.ts";
import { standing } from "./schema-facts.ts";
import type { Q, Store } from "./store.ts";
import {
  type ReadingRow,
  type StandingTest,
  sameReading,
  sameTold,
  standingTest,
  type TestLayer,
  type TestRow,
} from "./test-layers.ts";
import { committedLayers, readingsOf } from "./test-queries.ts";

type Compared = Pick<TestRow, "standing" | "supersedesId">;

/** Sets the standing of an import's tests and readings, some hundred tests to a transaction. */
export async function compareTests(
  store: Store,
  importId: string,
  { again, overlaps }: { again: boolean; overlaps: Overlaps },
): Promise<void> {
  let after = 0;
  for (;;) {
    const page = await stagedTests(store, importId, { after, again });
    if (page.length === 0) return;
    after = page[page.length - 1]!.id;
    await store.tx((q) => comparePage(store, q, importId, page, overlaps));
  }
}

/** At the first comparison all rows are marked new, so only tests that a committed import also knows need a look. */
function stagedTests(store: Store, importId: string, { after, again }: { after: number; again: boolean }) {
  const { tests, imports } = store;
  const other = alias(tests, "other");
  const knownElsewhere = exists(
    store.q
      .select({ one: sql`1` })
      .from(other)
      .innerJoin(imports, eq(imports.id, other.importId))
      .where(and(eq(other.factKey, tests.factKey), ne(other.importId, importId), eq(imports.state, "committed"))),
  );
  return store.q
    .select()
    .from(tests)
    .where(and(eq(tests.importId, importId), gt(tests.id, after), again ? undefined : knownElsewhere))
    .orderBy(asc(tests.id))
    .limit(chunkSize);
}

async function comparePage(store: Store, q: Q, importId: string, page: readonly TestRow[], overlaps: Overlaps) {
  const { tests, readings } = store;
  const below = await committedLayers(store, q, { keys: page.map((test) => test.factKey), except: importId });
  const own = await readingsOf(store, q, page);
  for (const test of page) {
    const staged: TestLayer = {
      test: { ...test, standing: standing.new },
      readings: (own.get(test.id) ?? []).filter((reading) => reading.standing !== standing.refused).map(asNew),
      rank: Number.MAX_SAFE_INTEGER,
      takeChanges: true,
    };
    const layers = below.get(test.factKey) ?? [];
    const before = standingTest(layers);
    const after = standingTest([staged, ...layers]);
    if (!after) continue;
    const head = headStanding(before, after);
    if (head.standing !== test.standing || head.supersedesId !== test.supersedesId) {
      await q.update(tests).set(head).where(eq(tests.id, test.id));
    }
    for (const reading of own.get(test.id) ?? []) {
      if (reading.standing === standing.refused) continue;
      const compared = readingStanding(reading, before, after);
      if (compared.standing === standing.known && head.standing !== standing.changed) {
        const earlier = before!.readings.get(reading.cylinder)!.layer.test.importId;
        overlaps.set(earlier, (overlaps.get(earlier) ?? 0) + 1);
      }
      if (compared.standing === reading.standing && compared.supersedesId === reading.supersedesId) continue;
      await q
        .update(readings)
        .set(compared)
        .where(and(eq(readings.testId, reading.testId), eq(readings.cylinder, reading.cylinder)));
    }
  }
}

const asNew = (reading: ReadingRow): ReadingRow => ({ ...reading, standing: standing.new });

function headStanding(before: StandingTest | null, after: StandingTest): Compared {
  if (!before) return { standing: standing.new, supersedesId: null };
  const same = sameTold(before, after);
  return { standing: same ? standing.known : standing.changed, supersedesId: before.top.test.id };
}

function readingStanding(reading: ReadingRow, before: StandingTest | null, after: StandingTest): Compared {
  const earlier = before?.readings.get(reading.cylinder);
  if (!earlier) return { standing: standing.new, supersedesId: null };
  const same = sameReading(earlier.reading, after.readings.get(reading.cylinder)!.reading);
  return { standing: same ? standing.known : standing.changed, supersedesId: earlier.layer.test.id };
}
