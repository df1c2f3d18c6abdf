import { and, eq, inArray } from "drizzle-orm";
import type { ReadingFact, TestFact } from "../lib/schema/facts.ts";
import { forChunks } from "./chunks.ts";
import { factColumns, isBlank, keyOf, testColumns, testKeyColumns } from "./fact-kinds.ts";
import { fileNumbers } from "./import-files.ts";
import { takeIds } from "./meta.ts";
import { standing } from "./schema-facts.ts";
import { assertStaging, asText, type StagingConflict } from "./staging.ts";
import type { Q, Store } from "./store.ts";
import type { ReadingRow, TestRow } from "./test-layers.ts";

/** A test of the import as it is being put together; `stored` parts lie in the database already. */
interface StagedTest {
  row: TestRow;
  stored: boolean;
  changed: boolean;
  /** By cylinder. A million of them pass through here, so an array and not a map. */
  readonly readings: (StagedReading | undefined)[];
}

interface StagedReading {
  row: ReadingRow;
  readonly stored: boolean;
  changed: boolean;
}

type Files = Awaited<ReturnType<typeof fileNumbers>>;

/**
 * Stages tests, or parts of tests: rows of one test may come in several fragments, calls and files. An exact repeat of
 * a row counts once; another value for the same cylinder of the same test refuses both. Holds one batch in memory and
 * writes it in one transaction: give some thousand readings at a time.
 */
export function stageTests(store: Store, importId: string, fragments: readonly TestFact[]): Promise<StagingConflict[]> {
  return store.tx(async (q) => {
    await assertStaging(store, q, importId);
    const files = await fileNumbers(store, q, importId);
    const keys = fragments.map((fragment) => keyOf(fragment, testKeyColumns));
    const staged = await testsStagedBefore(store, q, importId, [...new Set(keys)]);
    const fresh = new Set(keys.filter((key) => !staged.has(key))).size;
    let nextId = fresh === 0 ? 0 : await takeIds(store, q, fresh);
    const conflicts: StagingConflict[] = [];
    for (const [i, fragment] of fragments.entries()) {
      const factKey = keys[i]!;
      const fileNo = await files.numberOf(fragment.file);
      let test = staged.get(factKey);
      if (test) conflicts.push(...addToHead(test, fragment, files));
      else {
        const row = headOf(fragment, { id: nextId++, importId, factKey, fileNo });
        test = { row, stored: false, changed: false, readings: [] };
        staged.set(factKey, test);
      }
      for (const reading of fragment.readings) addReading(test, reading, fileNo, files, conflicts);
    }
    await write(store, q, [...staged.values()]);
    return conflicts;
  });
}

async function testsStagedBefore(store: Store, q: Q, importId: string, keys: readonly string[]) {
  const { tests, readings } = store;
  const rows = await forChunks(keys, (part) =>
    q
      .select()
      .from(tests)
      .where(and(inArray(tests.factKey, part), eq(tests.importId, importId))),
  );
  const byId = new Map<number, StagedTest>();
  for (const row of rows) byId.set(row.id, { row, stored: true, changed: false, readings: [] });
  const known = await forChunks([...byId.keys()], (part) =>
    q.select().from(readings).where(inArray(readings.testId, part)),
  );
  for (const row of known) byId.get(row.testId)!.readings[row.cylinder] = { row, stored: true, changed: false };
  return new Map([...byId.values()].map((test) => [test.row.factKey, test]));
}

/** Written out: taking the rest of a fragment without its readings costs far more, a million times. */
const headOf = (fragment: TestFact, own: Pick<TestRow, "id" | "importId" | "factKey" | "fileNo">): TestRow => ({
  id: own.id,
  importId: own.importId,
  factKey: own.factKey,
  fileNo: own.fileNo,
  line: fragment.readings[0]?.line ?? 1,
  standing: standing.new,
  supersedesId: null,
  unit: fragment.unit,
  date: fragment.date,
  time: fragment.time,
  meter: fragment.meter,
  meterUnit: fragment.meterUnit,
  test: fragment.test,
  attempt: fragment.attempt,
  instrument: fragment.instrument,
  depot: fragment.depot,
  engineSerial: fragment.engineSerial,
  engineModel: fragment.engineModel,
  testedBy: fragment.testedBy,
  orificeMm: fragment.orificeMm,
  warm: fragment.warm,
  throttleOpen: fragment.throttleOpen,
  allPlugsOut: fragment.allPlugsOut,
  tdcConfirmed: fragment.tdcConfirmed,
  gaugeZeroed: fragment.gaugeZeroed,
  crankingRpm: fragment.crankingRpm,
  altitudeM: fragment.altitudeM,
  barometerKpa: fragment.barometerKpa,
});

/** In these, rows of one test that differ point to a slip; in the others a test's rows may well differ (time, rpm). */
const oneForAllRows: readonly string[] = ["meter", "meterUnit", "depot", "engineSerial", "engineModel", "orificeMm"];

function addToHead(test: StagedTest, fragment: TestFact, files: Files): StagingConflict[] {
  const conflicts: StagingConflict[] = [];
  const blanks: Record<string, unknown> = {};
  for (const column of testColumns) {
    const [value, other] = [fragment[column], test.row[column]];
    if (isBlank(value) || value === other) continue;
    if (isBlank(other)) blanks[column] = value;
    else if (oneForAllRows.includes(column)) {
      conflicts.push({
        kind: "disagreement",
        file: fragment.file,
        line: fragment.readings[0]?.line ?? 1,
        otherFile: files.nameOf(test.row.fileNo),
        otherLine: test.row.line,
        subject: fragment.unit,
        cylinder: null,
        column,
        value: asText(value),
        otherValue: asText(other),
      });
    }
  }
  if (Object.keys(blanks).length > 0) {
    test.row = { ...test.row, ...blanks };
    test.changed = true;
  }
  return conflicts;
}

function addReading(test: StagedTest, fact: ReadingFact, fileNo: number, files: Files, conflicts: StagingConflict[]) {
  const row: ReadingRow = {
    testId: test.row.id,
    cylinder: fact.cylinder,
    value: fact.value,
    valueUnit: fact.valueUnit,
    supply: fact.supply,
    firstStroke: fact.firstStroke,
    heardAt: fact.heardAt.length === 0 ? null : fact.heardAt.join("+"),
    order: fact.order,
    remarks: fact.remarks,
    fileNo,
    line: fact.line,
    standing: standing.new,
    supersedesId: null,
  };
  const before = test.readings[fact.cylinder];
  if (!before) {
    test.readings[fact.cylinder] = { row, stored: false, changed: false };
    return;
  }
  const other = before.row;
  const told = (kind: StagingConflict["kind"], column: keyof ReadingRow | null): StagingConflict => ({
    kind,
    file: files.nameOf(fileNo),
    line: row.line,
    otherFile: files.nameOf(other.fileNo),
    otherLine: other.line,
    subject: test.row.unit,
    cylinder: fact.cylinder,
    column,
    value: column === null || column === "value" ? withUnit(row) : asText(row[column]),
    otherValue: column === null || column === "value" ? withUnit(other) : asText(other[column]),
  });
  const refuse = (kind: StagingConflict["kind"], column: keyof ReadingRow) => {
    conflicts.push(told(kind, column));
    before.row = { ...other, standing: standing.refused };
    before.changed = true;
  };
  if (other.standing === standing.refused) refuse("refused-before", "value");
  else if (other.value !== row.value || other.valueUnit !== row.valueUnit) refuse("conflict", "value");
  else if (!isBlank(row.supply) && !isBlank(other.supply) && row.supply !== other.supply) refuse("conflict", "supply");
  else {
    const differing = sideColumns.filter((c) => !isBlank(row[c]) && !isBlank(other[c]) && row[c] !== other[c]);
    if (differing.length === 0) conflicts.push(told("repeat", null));
    for (const column of differing) conflicts.push(told("disagreement", column));
    const blanks = sideColumns.filter((c) => isBlank(other[c]) && !isBlank(row[c]));
    if (blanks.length > 0) {
      before.row = { ...other, ...Object.fromEntries(blanks.map((c) => [c, row[c]])) };
      before.changed = true;
    }
  }
}

const sideColumns = ["supply", "firstStroke", "heardAt", "order", "remarks"] as const;
const withUnit = (row: ReadingRow): string =>
  row.valueUnit === "%" ? `${row.value} %` : `${row.value} ${row.valueUnit}`;

const insertedTestColumns = [...factColumns, ...testKeyColumns, ...testColumns] as const;
const insertedReadingColumns = [
  "testId",
  "cylinder",
  "value",
  "valueUnit",
  "supply",
  "firstStroke",
  "heardAt",
  "order",
  "remarks",
  "fileNo",
  "line",
  "standing",
] as const;

async function write(store: Store, q: Q, staged: readonly StagedTest[]): Promise<void> {
  const { tests, readings } = store;
  const newTests: TestRow[] = [];
  const newReadings: ReadingRow[] = [];
  const changedReadings: ReadingRow[] = [];
  for (const test of staged) {
    if (!test.stored) newTests.push(test.row);
    for (const reading of test.readings) {
      if (reading && !reading.stored) newReadings.push(reading.row);
      else if (reading?.changed) changedReadings.push(reading.row);
    }
  }
  await store.bulkInsert(q, tests, insertedTestColumns, newTests);
  await store.bulkInsert(q, readings, insertedReadingColumns, newReadings);
  for (const { row, stored, changed } of staged) {
    if (stored && changed) await q.update(tests).set(row).where(eq(tests.id, row.id));
  }
  for (const row of changedReadings) {
    await q
      .update(readings)
      .set(row)
      .where(and(eq(readings.testId, row.testId), eq(readings.cylinder, row.cylinder)));
  }
}
