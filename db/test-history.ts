import { and, asc, count, eq, gt, inArray } from "drizzle-orm";
import type { IsoDate } from "../lib/schema/facts.ts";
import type { Measure, ValueUnit, Verdict } from "../lib/schema/words.ts";
import { chunks, forChunks } from "./chunks.ts";
import { keyOf, testKeyColumns } from "./fact-kinds.ts";
import type { Store } from "./store.ts";
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
        readonly meter: number;
        readonly readings: readonly {
          readonly cylinder: number;
          readonly value: number;
          readonly valueUnit: ValueUnit;
        }[];
      }
    | {
        readonly kind: "judged";
        readonly cylinder: number | null;
        readonly verdict: Verdict;
        readonly reason: string;
        readonly judgedBy: string;
      }
  );

/**
 * All that was ever told of each test of the units, in the order of the commits, what was undone since among it. Of tests
 * that one import told and nobody judged there is no history, and they are missing. By `testHistoryKey`.
 */
export async function testHistories(
  store: Store,
  units: readonly string[],
): Promise<ReadonlyMap<string, readonly TestEvent[]>> {
  const { q, tests, judgements, imports, importFiles } = store;
  const events = new Map<string, TestEvent[]>();
  const add = (key: string, event: TestEvent) => {
    const list = events.get(key);
    if (list === undefined) events.set(key, [event]);
    else list.push(event);
  };
  for (const part of chunks([...new Set(units)])) {
    const ofPart = and(inArray(tests.unit, [...part]), wasEverVisible(store));
    const toldAgain = await q
      .select({ key: tests.factKey })
      .from(tests)
      .innerJoin(imports, eq(imports.id, tests.importId))
      .where(ofPart)
      .groupBy(tests.factKey)
      .having(gt(count(), 1));
    const judged = await q
      .select({ row: judgements, its: imports })
      .from(judgements)
      .innerJoin(imports, eq(imports.id, judgements.importId))
      .where(and(inArray(judgements.unit, [...part]), wasEverVisible(store)))
      .orderBy(asc(imports.rank));
    const keys = [...new Set([...toldAgain.map(({ key }) => key), ...judged.map(({ row }) => testHistoryKey(row))])];
    const wanted = await forChunks(keys, (some) =>
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
    const ids = [...new Set([...wanted, ...judged].map(({ its }) => its.id))];
    const files = new Map<string, string>();
    for (const some of chunks(ids)) {
      const rows = await q
        .select()
        .from(importFiles)
        .where(inArray(importFiles.importId, [...some]));
      for (const file of rows) files.set(`${file.fileNo} ${file.importId}`, file.name);
    }
    const common = (row: { importId: string; fileNo: number }, its: (typeof wanted)[number]["its"]): Told => ({
      importId: its.id,
      rank: its.rank ?? 0,
      by: its.committedBy ?? its.by,
      at: its.committedAt ?? its.at,
      from: files.get(`${row.fileNo} ${row.importId}`) ?? "",
      undoneBy: its.undoneBy,
      undoneAt: its.undoneAt,
    });
    for (const { row, its } of wanted) {
      add(row.factKey, {
        ...common(row, its),
        kind: "told",
        takeChanges: its.takeChanges,
        meter: row.meter,
        readings: (readings.get(row.id) ?? [])
          .map(({ cylinder, value, valueUnit }) => ({ cylinder, value, valueUnit }))
          .sort((a, b) => a.cylinder - b.cylinder),
      });
    }
    for (const { row, its } of judged) {
      const { cylinder, verdict, reason, judgedBy } = row;
      add(testHistoryKey(row), { ...common(row, its), kind: "judged", cylinder, verdict, reason, judgedBy });
    }
  }
  for (const list of events.values()) list.sort((a, b) => a.rank - b.rank);
  return events;
}
