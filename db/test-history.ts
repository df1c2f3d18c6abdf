import { and, asc, count, eq, gt, inArray, isNull, ne, or } from "drizzle-orm";
import type { IsoDate, TestFact } from "../lib/schema/facts.ts";
import type { Measure, Verdict } from "../lib/schema/words.ts";
import { chunks, forChunks } from "./chunks.ts";
import { keyOf, testKeyColumns } from "./fact-kinds.ts";
import { type ReadingTold, readingTold } from "./facts.ts";
import type { ImportRow } from "./imports.ts";
import { tellsWhole } from "./schema-imports.ts";
import type { Store } from "./store.ts";
import type { TestRow } from "./test-layers.ts";
import { readingsOf } from "./test-queries.ts";
import { wasEverVisible } from "./visible.ts";

/** What names a test. */
export interface TestNamed {
  readonly unit: string;
  readonly date: IsoDate;
  readonly test: Measure;
  readonly attempt: number;
  readonly instrument: string | null;
}

/** The key under which a test's history is told. */
export const testHistoryKey = (test: TestNamed): string => keyOf(test, testKeyColumns);

/** The test that such a key names. */
export function testNamedBy(key: string): TestNamed {
  const [unit, date, test, attempt, instrument] = JSON.parse(key) as [string, IsoDate, Measure, number, string | null];
  return { unit, date, test, attempt, instrument };
}

/** A test as one import told it, what that left blank among it. */
export type ToldTest = Omit<TestFact, "file" | "readings"> & { readonly readings: readonly ReadingTold[] };

/** An import that told of a test, or judged it. */
interface Told {
  readonly importId: string;
  readonly rank: number;
  readonly by: string;
  readonly at: string;
  /** The file, or the title of the form that it came by. */
  readonly from: string;
  /** null: it stands. */
  readonly undoneBy: string | null;
  readonly undoneAt: string | null;
}

export type TestEvent = Told &
  (
    | {
        readonly kind: "told";
        /** Whether it was taken where it said otherwise. */
        readonly takeChanges: boolean;
        /** Whether what it leaves blank became blank. */
        readonly whole: boolean;
        readonly test: ToldTest;
      }
    | {
        readonly kind: "judged";
        readonly cylinder: number | null;
        readonly verdict: Verdict;
        readonly reason: string;
        readonly judgedBy: string;
        /** Of a test that a correction withdrew: what it was told again as. */
        readonly toldAs: TestNamed | null;
      }
  );

/**
 * All that was ever told of each test of the units, in the order of the commits, what was undone since among it. Of tests
 * that one import told and nobody judged there is no history, and they are missing. A test that was told again under
 * another name carries on the history of the one that was withdrawn for it. By `testHistoryKey`.
 */
export async function testHistories(
  store: Store,
  units: readonly string[],
): Promise<ReadonlyMap<string, readonly TestEvent[]>> {
  const renamings = await renamingsOf(store, units);
  const all = new Set([...units, ...renamings.map(({ was }) => was.unit)]);
  const events = new Map<string, TestEvent[]>();
  for (const part of chunks([...all])) {
    for (const [key, list] of await eventsOf(store, part, renamings)) {
      events.set(
        key,
        list.toSorted((a, b) => a.rank - b.rank),
      );
    }
  }
  return new Map([...events].map(([key, own]) => [key, carriedOn(key, own, { events, renamings })]));
}

/** A correction that gave a test another name. */
interface Renaming {
  readonly importId: string;
  readonly isUndone: boolean;
  readonly was: TestNamed;
  readonly is: TestNamed;
}

/** All that lead to or from the tests of the units, over any number of corrections. */
async function renamingsOf(store: Store, units: readonly string[]): Promise<readonly Renaming[]> {
  const { q, tests, judgements, imports } = store;
  const found = new Map<string, Renaming>();
  const seen = new Set<string>();
  for (let frontier = [...new Set(units)]; frontier.length > 0; ) {
    for (const unit of frontier) seen.add(unit);
    const rows = await forChunks(frontier, (part) =>
      q
        .select({ is: tests, was: judgements, state: imports.state })
        .from(judgements)
        .innerJoin(imports, eq(imports.id, judgements.importId))
        .innerJoin(tests, eq(tests.importId, judgements.importId))
        .where(
          and(
            eq(judgements.verdict, "withdrawn"),
            isNull(judgements.cylinder),
            // A form tells one test in the place of one; what a file withdraws, it does not tell again.
            ne(imports.origin, "file"),
            or(inArray(judgements.unit, part), inArray(tests.unit, part)),
            wasEverVisible(store),
          ),
        ),
    );
    for (const { is, was, state } of rows) {
      const { importId } = is;
      found.set(importId, { importId, isUndone: state === "undone", was: named(was), is: named(is) });
    }
    frontier = [...new Set([...found.values()].map(({ was }) => was.unit))].filter((unit) => !seen.has(unit));
  }
  return [...found.values()];
}

const named = ({ unit, date, test, attempt, instrument }: TestNamed): TestNamed => ({
  unit,
  date,
  test,
  attempt,
  instrument,
});

/** What was told of the test before it had this name, and since. */
function carriedOn(
  key: string,
  own: readonly TestEvent[],
  known: { readonly events: ReadonlyMap<string, readonly TestEvent[]>; readonly renamings: readonly Renaming[] },
): readonly TestEvent[] {
  const chain: TestEvent[][] = [[...own]];
  const seen = new Set([key]);
  for (let at = key; ; ) {
    const from = known.renamings.find(({ is, isUndone }) => !isUndone && testHistoryKey(is) === at);
    if (from === undefined) break;
    at = testHistoryKey(from.was);
    if (seen.has(at)) break;
    seen.add(at);
    chain.unshift((known.events.get(at) ?? []).filter(({ importId }) => importId !== from.importId));
  }
  return chain.flat();
}

/** The own events of each test of some units, as far as it has any but the first. */
async function eventsOf(
  store: Store,
  units: readonly string[],
  renamings: readonly Renaming[],
): Promise<ReadonlyMap<string, TestEvent[]>> {
  const { q, tests, judgements, imports } = store;
  const events = new Map<string, TestEvent[]>();
  const add = (key: string, event: TestEvent) => {
    const list = events.get(key);
    if (list === undefined) events.set(key, [event]);
    else list.push(event);
  };
  const toldAgain = await q
    .select({ key: tests.factKey })
    .from(tests)
    .innerJoin(imports, eq(imports.id, tests.importId))
    .where(and(inArray(tests.unit, [...units]), wasEverVisible(store)))
    .groupBy(tests.factKey)
    .having(gt(count(), 1));
  const judged = await q
    .select({ row: judgements, its: imports })
    .from(judgements)
    .innerJoin(imports, eq(imports.id, judgements.importId))
    .where(and(inArray(judgements.unit, [...units]), wasEverVisible(store)))
    .orderBy(asc(imports.rank));
  const renamed = renamings.filter(({ is }) => units.includes(is.unit));
  const keys = new Set([
    ...toldAgain.map(({ key }) => key),
    ...judged.map(({ row }) => testHistoryKey(row)),
    ...renamed.map(({ is }) => testHistoryKey(is)),
  ]);
  const wanted = await forChunks([...keys], (some) =>
    q
      .select({ row: tests, its: imports })
      .from(tests)
      .innerJoin(imports, eq(imports.id, tests.importId))
      .where(and(inArray(tests.factKey, some), wasEverVisible(store)))
      .orderBy(asc(imports.rank)),
  );
  const readings = await readingsOf(
    store,
    q,
    wanted.map(({ row }) => row),
  );
  const files = await namesOfFiles(store, [...wanted, ...judged]);
  const common = (row: { readonly importId: string; readonly fileNo: number }, its: ImportRow): Told => ({
    importId: its.id,
    rank: its.rank ?? 0,
    by: its.committedBy ?? its.by,
    at: its.committedAt ?? its.at,
    from: files.get(`${row.fileNo} ${row.importId}`) ?? "",
    undoneBy: its.undoneBy,
    undoneAt: its.undoneAt,
  });
  for (const { row, its } of wanted) {
    const { takeChanges, origin } = its;
    const test = toldTest(row, (readings.get(row.id) ?? []).map(readingTold));
    add(row.factKey, { ...common(row, its), kind: "told", takeChanges, whole: tellsWhole(origin), test });
  }
  for (const { row, its } of judged) {
    const { cylinder, verdict, reason, judgedBy } = row;
    const toldAs = renamings.find(({ importId }) => importId === its.id)?.is ?? null;
    const says = { cylinder, verdict, reason, judgedBy, toldAs: verdict === "withdrawn" ? toldAs : null };
    add(testHistoryKey(row), { ...common(row, its), kind: "judged", ...says });
  }
  return events;
}

async function namesOfFiles({ q, importFiles }: Store, told: readonly { readonly its: Pick<ImportRow, "id"> }[]) {
  const rows = await forChunks([...new Set(told.map(({ its }) => its.id))], (some) =>
    q.select().from(importFiles).where(inArray(importFiles.importId, some)),
  );
  return new Map(rows.map((file) => [`${file.fileNo} ${file.importId}`, file.name]));
}

function toldTest(row: TestRow, readings: readonly ReadingTold[]): ToldTest {
  const { id, importId, factKey, standing, supersedesId, fileNo, line, ...head } = row;
  return { ...head, readings: readings.toSorted((a, b) => a.cylinder - b.cylinder) };
}
