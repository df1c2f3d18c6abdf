import { and, asc, count, eq, exists, inArray, or, sql } from "drizzle-orm";
import { visibleFacts } from "./comparison-facts.ts";
import { type FactKindName, type FactRow, factKinds, isBlank, layered, testColumns } from "./fact-kinds.ts";
import { fileNumbers } from "./import-files.ts";
import { type Standing, standing } from "./schema-facts.ts";
import { factTable } from "./staging-facts.ts";
import type { Store } from "./store.ts";
import { type ReadingRow, type StandingTest, standingTest, type TestRow } from "./test-layers.ts";
import { committedLayers, readingsOf } from "./test-queries.ts";

/** Rows that count only where the changes are taken. */
const comeWithChanges: readonly Standing[] = [standing.changed, standing.withChanges];

/** One cell that a staged import would change: what stands now, and what would. */
export interface CellChange {
  /** The field of the fact. */
  readonly column: string;
  /** The cylinder of a reading; null: it tells of the test, or of no test. */
  readonly cylinder: number | null;
  readonly before: unknown;
  readonly after: unknown;
  /** Of a reading: the unit that it is told in, now and then; left out: none, or it changes as well. */
  readonly unit?: string;
}

/** A thing (a test, a unit, a repair …) of which a staged import says otherwise, or more, or which comes with that. */
export interface ChangedThing {
  readonly kind: "tests" | FactKindName;
  /** Unit, depot or engine model. */
  readonly subject: string;
  /** What tells it from others of its subject, as the key has it: date, measure and so on; null where nothing does. */
  readonly about: readonly (string | number | null)[];
  readonly file: string;
  readonly line: number;
  readonly changes: readonly CellChange[];
}

/**
 * What a staged import would change, in the order test by test as read, then units, depots, repairs, meter readings,
 * checks and models; and how many things there are. Compared with what is visible now.
 */
export async function changedRows(
  store: Store,
  importId: string,
  { offset, limit }: { offset: number; limit: number },
): Promise<{ things: ChangedThing[]; total: number }> {
  const names = (await fileNumbers(store, store.q, importId)).nameOf;
  const things: ChangedThing[] = [];
  let total = await countChangedTests(store, importId);
  if (offset < total) things.push(...(await changedTests(store, importId, { offset, limit, names })));
  for (const name of Object.keys(factKinds) as FactKindName[]) {
    const before = total;
    total += await countChangedFacts(store, importId, name);
    const left = limit - things.length;
    if (left <= 0 || offset >= total) continue;
    things.push(
      ...(await changedFacts(store, importId, name, { offset: Math.max(0, offset - before), limit: left, names })),
    );
  }
  return { things, total };
}

interface Page {
  readonly offset: number;
  readonly limit: number;
  readonly names: (fileNo: number) => string;
}

/** A test changes where its own row does or one of its readings. */
function testChanges({ q, tests, readings }: Store, importId: string) {
  const changedReading = q
    .select({ one: sql`1` })
    .from(readings)
    .where(and(eq(readings.testId, tests.id), inArray(readings.standing, [...comeWithChanges])));
  return and(eq(tests.importId, importId), or(eq(tests.standing, standing.changed), exists(changedReading)));
}

async function countChangedTests(store: Store, importId: string): Promise<number> {
  const [row] = await store.q.select({ total: count() }).from(store.tests).where(testChanges(store, importId));
  return row?.total ?? 0;
}

async function changedTests(store: Store, importId: string, { offset, limit, names }: Page): Promise<ChangedThing[]> {
  const { q, tests } = store;
  const rows = await q
    .select()
    .from(tests)
    .where(testChanges(store, importId))
    .orderBy(asc(tests.id))
    .limit(limit)
    .offset(offset);
  const below = await committedLayers(store, q, { keys: rows.map((row) => row.factKey), except: importId });
  const own = await readingsOf(store, q, rows);
  return rows.map((row) => {
    const before = standingTest(below.get(row.factKey) ?? []);
    const readings = (own.get(row.id) ?? []).filter((reading) => comeWithChanges.includes(reading.standing));
    return {
      kind: "tests",
      subject: row.unit,
      about: [row.date, row.test, row.attempt, row.instrument],
      file: names(row.fileNo),
      line: Math.min(
        ...(row.standing === standing.changed ? [row.line] : []),
        ...readings.map((reading) => reading.line),
      ),
      changes: [...testCells(row, before), ...readings.flatMap((r) => readingCells(r, before))],
    };
  });
}

const testCells = (row: TestRow, before: StandingTest | null): CellChange[] =>
  before !== null && row.standing === standing.changed ? differing(testColumns, before.told, row, null) : [];

const readingColumns = ["value", "valueUnit", "supply", "firstStroke", "heardAt", "order", "remarks"] as const;

const inUnit: ReadonlySet<string> = new Set<(typeof readingColumns)[number]>(["value", "firstStroke"]);

function readingCells(row: ReadingRow, before: StandingTest | null): CellChange[] {
  const earlier = before?.readings.get(row.cylinder)?.reading ?? {};
  const unit: string | undefined = before?.readings.get(row.cylinder)?.reading.valueUnit;
  return differing(readingColumns, earlier, row, row.cylinder).map((change) =>
    unit === row.valueUnit && inUnit.has(change.column) ? { ...change, unit } : change,
  );
}

/** A cell left blank changes nothing: what was known of it stays. */
function differing(
  columns: readonly string[],
  before: Readonly<Record<string, unknown>>,
  after: Readonly<Record<string, unknown>>,
  cylinder: number | null,
): CellChange[] {
  return columns
    .filter((column) => !isBlank(after[column]) && JSON.stringify(after[column]) !== JSON.stringify(before[column]))
    .map((column) => ({ column, cylinder, before: before[column] ?? null, after: after[column] }));
}

async function countChangedFacts(store: Store, importId: string, name: FactKindName): Promise<number> {
  const table = factTable(store, factKinds[name]);
  const [row] = await store.q
    .select({ total: count() })
    .from(table)
    .where(and(eq(table.importId, importId), inArray(table.standing, [...comeWithChanges])));
  return row?.total ?? 0;
}

async function changedFacts(
  store: Store,
  importId: string,
  name: FactKindName,
  { offset, limit, names }: Page,
): Promise<ChangedThing[]> {
  const kind = factKinds[name];
  const table = factTable(store, kind);
  const rows: FactRow[] = await store.q
    .select()
    .from(table)
    .where(and(eq(table.importId, importId), inArray(table.standing, [...comeWithChanges])))
    .orderBy(asc(table.id))
    .limit(limit)
    .offset(offset);
  const below = await visibleFacts(store, store.q, kind, { keys: rows.map((row) => row.factKey), except: importId });
  return rows.map((row) => ({
    kind: name,
    subject: String(row[kind.subject]),
    about: kind.key.filter((column) => column !== kind.subject).map((column) => keyPart(row[column])),
    file: names(row.fileNo),
    line: row.line,
    changes: differing(kind.content, layered(below.get(row.factKey) ?? [], kind.content), row, null),
  }));
}

const keyPart = (value: unknown): string | number | null => {
  if (typeof value === "number" || value === null || value === undefined) return value ?? null;
  if (typeof value === "boolean") return value ? "yes" : "no";
  return Array.isArray(value) ? value.join("+") : String(value);
};
