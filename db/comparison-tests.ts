import { setImmediate as breathe } from "node:timers/promises";
import { and, asc, eq, exists, gt, inArray, ne, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/sqlite-core";
import { chunkSize } from "./chunks.ts";
import { standingAlone } from "./comparison-facts.ts";
import { hasFacts } from "./facts.ts";
import type { ImportRow } from "./imports.ts";
import { type Standing, standing } from "./schema-facts.ts";
import { tellsWhole } from "./schema-imports.ts";
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
  { id: importId, origin }: Pick<ImportRow, "id" | "origin">,
  { again }: { again: boolean },
): Promise<void> {
  // Marked new already, and nothing is there that could know them.
  if (!again && !(await hasFacts(store))) return;
  const whole = tellsWhole(origin);
  let after = 0;
  for (;;) {
    const page = await stagedTests(store, importId, { after, again });
    if (page.length === 0) return;
    after = page[page.length - 1]!.id;
    await store.tx((q) => comparePage(store, q, { importId, whole }, page));
    await breathe();
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

async function comparePage(
  store: Store,
  q: Q,
  { importId, whole }: { readonly importId: string; readonly whole: boolean },
  page: readonly TestRow[],
) {
  const below = await committedLayers(store, q, { keys: page.map((test) => test.factKey), except: importId });
  const own = await readingsOf(store, q, page);
  const alike = new Map<Standing, number[]>([
    [standing.new, []],
    [standing.known, []],
  ]);
  for (const test of page) {
    const readings = own.get(test.id) ?? [];
    const layers = below.get(test.factKey) ?? [];
    const before = standingTest(layers);
    const after = standingTest([asStaged(test, readings, whole), ...layers]);
    if (!after) continue;
    const head = headStanding(test, before, after);
    const each = readings.map((reading) => ({ reading, compared: readingStanding(reading, before, after) }));
    const group = alike.get(head.standing);
    if (group && each.every(({ compared }) => compared.standing === head.standing)) group.push(test.id);
    else await setOneByOne(store, q, test, head, each);
  }
  for (const [value, ids] of alike) await setTogether(store, q, ids, value);
}

interface ComparedReading {
  readonly reading: ReadingRow;
  readonly compared: Compared;
}

const asStaged = (test: TestRow, readings: readonly ReadingRow[], whole: boolean): TestLayer => ({
  test: { ...test, standing: standing.new },
  readings: readings.map((reading) => ({ ...reading, standing: standing.new })),
  rank: Number.MAX_SAFE_INTEGER,
  takeChanges: true,
  whole,
});

/** Tests that are new or known with all their readings, which most are: two statements for a whole page. */
async function setTogether({ tests, readings }: Store, q: Q, ids: readonly number[], value: Standing): Promise<void> {
  if (ids.length === 0) return;
  const told = { standing: value, supersedesId: null };
  await q
    .update(tests)
    .set(told)
    .where(and(inArray(tests.id, [...ids]), ne(tests.standing, value)));
  await q
    .update(readings)
    .set(told)
    .where(and(inArray(readings.testId, [...ids]), ne(readings.standing, value)));
}

async function setOneByOne(
  { tests, readings }: Store,
  q: Q,
  test: TestRow,
  head: Compared,
  each: readonly ComparedReading[],
): Promise<void> {
  await q.update(tests).set(head).where(eq(tests.id, test.id));
  for (const { reading, compared } of each) {
    if (compared.standing === reading.standing && compared.supersedesId === reading.supersedesId) continue;
    await q
      .update(readings)
      .set(compared)
      .where(and(eq(readings.testId, reading.testId), eq(readings.cylinder, reading.cylinder)));
  }
}

function headStanding(test: TestRow, before: StandingTest | null, after: StandingTest): Compared {
  if (!before) return { standing: standingAlone(test.standing), supersedesId: null };
  const same = sameTold(before.told, after.told);
  return { standing: same ? standing.known : standing.changed, supersedesId: before.top.test.id };
}

function readingStanding(reading: ReadingRow, before: StandingTest | null, after: StandingTest): Compared {
  const earlier = before?.readings.get(reading.cylinder);
  if (!earlier) return { standing: standingAlone(reading.standing), supersedesId: null };
  const same = sameReading(earlier.reading, after.readings.get(reading.cylinder)!.reading);
  return { standing: same ? standing.known : standing.changed, supersedesId: earlier.layer.test.id };
}
