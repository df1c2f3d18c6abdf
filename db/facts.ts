import { setImmediate as breathe } from "node:timers/promises";
import { eq, inArray } from "drizzle-orm";
import type { FleetFacts, ReadingFact, TestFact } from "../lib/schema/facts.ts";
import type { Place } from "../lib/schema/words.ts";
import { chunks } from "./chunks.ts";
import { visibleFacts } from "./comparison-facts.ts";
import { type FactKind, type FactKindName, type FactOf, type FactRow, factKinds, layered } from "./fact-kinds.ts";
import { factUnits } from "./fleet-known.ts";
import type { Store } from "./store.ts";
import { type ReadingRow, type StandingReading, type StandingTest, standingTest } from "./test-layers.ts";
import { committedLayers } from "./test-queries.ts";

/** Units read at a time: few enough that the event loop is not held up. */
const unitsAtATime = 50;

type FileNames = (at: { readonly importId: string; readonly fileNo: number }) => string;

/**
 * The facts that stand, of the whole fleet or of `units`; models and depots always all. The same facts come in the
 * same order whatever the order in which they were imported.
 */
/** The repairs that stand of some units. */
export const repairFacts = async (store: Store, units: readonly string[]): Promise<FleetFacts["repairs"]> =>
  await factsOf(store, "repairs", await fileNames(store), units);

export async function fleetFacts(store: Store, { units }: { units?: readonly string[] } = {}): Promise<FleetFacts> {
  const fileOf = await fileNames(store);
  const models = await factsOf(store, "models", fileOf);
  return {
    models: models.map((fact) => fact.model),
    depots: await factsOf(store, "depots", fileOf),
    units: await factsOf(store, "units", fileOf, units),
    tests: await testFacts(store, fileOf, units),
    repairs: await factsOf(store, "repairs", fileOf, units),
    meterReadings: await factsOf(store, "meterReadings", fileOf, units),
    checks: await factsOf(store, "checks", fileOf, units),
    judgements: await factsOf(store, "judgements", fileOf, units),
  };
}

/** The tests that stand of some units, what persons made of them, and what lists of units tell of these. */
export async function testsAndUnits(
  store: Store,
  units: readonly string[],
): Promise<Pick<FleetFacts, "tests" | "units" | "judgements">> {
  const fileOf = await fileNames(store);
  return {
    tests: await testFacts(store, fileOf, units),
    units: await factsOf(store, "units", fileOf, units),
    judgements: await factsOf(store, "judgements", fileOf, units),
  };
}

/**
 * The facts that stand, piece by piece, for whoever passes them on: the depots first, then of some units at a time, units
 * ascending. Without the engine models, and without the file that each was read from.
 */
export async function* factsInPieces(store: Store): AsyncGenerator<Partial<Omit<FleetFacts, "models">>> {
  const noFile: FileNames = () => "";
  yield { depots: await factsOf(store, "depots", noFile) };
  for (const units of chunks(await factUnits(store), unitsAtATime)) {
    yield {
      units: await factsOf(store, "units", noFile, units),
      tests: await testFacts(store, noFile, units),
      repairs: await factsOf(store, "repairs", noFile, units),
      meterReadings: await factsOf(store, "meterReadings", noFile, units),
      checks: await factsOf(store, "checks", noFile, units),
      judgements: await factsOf(store, "judgements", noFile, units),
    };
  }
}

/** Names of files by import and number; of one import, where it is told. */
export async function fileNames({ q, importFiles }: Store, importId?: string): Promise<FileNames> {
  const rows = await q
    .select({ importId: importFiles.importId, fileNo: importFiles.fileNo, name: importFiles.name })
    .from(importFiles)
    .where(importId === undefined ? undefined : eq(importFiles.importId, importId));
  const names = new Map(rows.map((row) => [`${row.fileNo} ${row.importId}`, row.name]));
  return ({ importId, fileNo }) => names.get(`${fileNo} ${importId}`) ?? "";
}

async function factsOf<K extends FactKindName>(
  store: Store,
  name: K,
  fileOf: FileNames,
  units?: readonly string[],
): Promise<FactOf[K][]> {
  const kind: FactKind = factKinds[name];
  const facts: FactOf[K][] = [];
  for (const subjects of units ? chunks([...new Set(units)]) : [undefined]) {
    const rows = await visibleFacts(store, store.q, kind, subjects ? { subjects } : {});
    // A kind's key and content columns are its fact's fields, by the same names.
    for (const layers of rows.values()) facts.push(factFrom(kind, layers, fileOf) as unknown as FactOf[K]);
  }
  return inOrder(facts, kind.key);
}

export function factFrom(kind: FactKind, layers: readonly FactRow[], fileOf: FileNames): Record<string, unknown> {
  const top = layers[0]!;
  const fact: Record<string, unknown> = {};
  for (const column of kind.key) fact[column] = top[column] ?? null;
  return { ...fact, ...layered(layers, kind.content), file: fileOf(top), line: top.line };
}

async function testFacts(store: Store, fileOf: FileNames, units?: readonly string[]): Promise<TestFact[]> {
  const { tests, q } = store;
  const wanted = units ?? (await q.selectDistinct({ unit: tests.unit }).from(tests)).map((row) => row.unit);
  const facts: TestFact[] = [];
  for (const part of chunks([...new Set(wanted)].sort(), unitsAtATime)) {
    const where = inArray(tests.unit, [...part]);
    const found: TestFact[] = [];
    for (const layers of (await committedLayers(store, q, { where })).values()) {
      const test = standingTest(layers);
      if (test) found.push(testFact(test, fileOf));
    }
    for (const fact of inOrder(found, ["unit", "date", "test", "attempt", "instrument"])) facts.push(fact);
    await breathe();
  }
  return facts;
}

export function testFact({ top, told, readings }: StandingTest, fileOf: FileNames): TestFact {
  const { id, importId, factKey, standing, supersedesId, fileNo, line, ...head } = { ...top.test, ...told };
  const sources = [...readings.values()];
  const file = fileOfReading(sources[0]!, fileOf);
  return { ...head, file, readings: sources.map((source) => readingFact(source, file, fileOf)) };
}

const fileOfReading = ({ reading, layer }: StandingReading, fileOf: FileNames): string =>
  fileOf({ importId: layer.test.importId, fileNo: reading.fileNo });

function readingFact(source: StandingReading, testFile: string, fileOf: FileNames): ReadingFact {
  const file = fileOfReading(source, fileOf);
  const fact = { ...readingTold(source.reading), line: source.reading.line };
  return file === testFile ? fact : { ...fact, file };
}

/** A reading without the place that it was read from. */
export type ReadingTold = Omit<ReadingFact, "line" | "file" | "column">;

/** What a row says of a reading. */
export const readingTold = (row: ReadingRow): ReadingTold => ({
  cylinder: row.cylinder,
  value: row.value,
  valueUnit: row.valueUnit,
  supply: row.supply,
  firstStroke: row.firstStroke,
  // Written by joining places, so its parts are places.
  heardAt: row.heardAt === null ? [] : (row.heardAt.split("+") as Place[]),
  order: row.order,
  remarks: row.remarks,
});

/** Blanks first, numbers by size, text by its code units: the same on every machine. */
function inOrder<T extends object>(facts: readonly T[], columns: readonly string[]): T[] {
  const compare = (a: unknown, b: unknown): number => {
    const [x, y] = [a ?? "", b ?? ""].map((v) => (Array.isArray(v) ? v.join() : v)) as [string, string];
    return x < y ? -1 : x > y ? 1 : 0;
  };
  return [...facts].sort((a, b) => {
    for (const column of columns) {
      const by = compare(a[column as keyof T], b[column as keyof T]);
      if (by !== 0) return by;
    }
    return 0;
  });
}

/** Whether anything was ever imported and still stands. */
export async function hasFacts({ q, imports }: Store): Promise<boolean> {
  const rows = await q.select({ id: imports.id }).from(imports).where(eq(imports.state, "committed")).limit(1);
  return rows.length > 0;
}
