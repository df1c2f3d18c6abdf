import type { ReadingFact, TestFact } from "../lib/schema/facts.ts";
import { factColumns, keyOf, testColumns, testKeyColumns } from "./fact-kinds.ts";
import { fileNumbers } from "./import-files.ts";
import { takeIds } from "./meta.ts";
import { standing } from "./schema-facts.ts";
import { assertStaging, type StagedWith } from "./staging.ts";
import type { Store } from "./store.ts";
import type { ReadingRow, TestRow } from "./test-layers.ts";

/**
 * Stages tests; one whose readings come from several files comes in a part for each, in one call. Intake settles before
 * what rows say of each other: a test or a reading told twice in one import throws. Holds one batch in memory and writes
 * it in one transaction: give some thousand readings at a time.
 */
export function stageTests(
  store: Store,
  importId: string,
  parts: readonly TestFact[],
  { withChanges }: StagedWith = {},
): Promise<void> {
  const { tests, readings } = store;
  return store.tx(async (q) => {
    await assertStaging(store, q, importId);
    const files = await fileNumbers(store, q, importId);
    let nextId = parts.length === 0 ? 0 : await takeIds(store, q, parts.length);
    const heads = new Map<string, TestRow>();
    const testRows: TestRow[] = [];
    const readingRows: ReadingRow[] = [];
    for (const part of parts) {
      const factKey = keyOf(part, testKeyColumns);
      const fileNo = await files.numberOf(part.file);
      let head = heads.get(factKey);
      if (head === undefined) {
        head = headOf(part, { id: nextId++, importId, factKey, fileNo });
        heads.set(factKey, head);
        testRows.push(head);
      }
      for (const fact of part.readings) {
        const its = withChanges?.has(fact) ? standing.withChanges : standing.new;
        // A test comes with the changes where all its readings do.
        if (its === standing.new) head.standing = standing.new;
        readingRows.push(readingOf(fact, { testId: head.id, fileNo, standing: its }));
      }
    }
    await store.bulkInsert(q, tests, insertedTestColumns, testRows);
    await store.bulkInsert(q, readings, insertedReadingColumns, readingRows);
  });
}

/** Written out: taking the rest of a test without its readings costs far more, a million times. */
const headOf = (part: TestFact, own: Pick<TestRow, "id" | "importId" | "factKey" | "fileNo">): TestRow => ({
  id: own.id,
  importId: own.importId,
  factKey: own.factKey,
  fileNo: own.fileNo,
  line: part.readings[0]?.line ?? 1,
  standing: standing.withChanges,
  supersedesId: null,
  unit: part.unit,
  date: part.date,
  time: part.time,
  meter: part.meter,
  meterUnit: part.meterUnit,
  test: part.test,
  attempt: part.attempt,
  instrument: part.instrument,
  depot: part.depot,
  engineSerial: part.engineSerial,
  engineModel: part.engineModel,
  testedBy: part.testedBy,
  orificeMm: part.orificeMm,
  warm: part.warm,
  throttleOpen: part.throttleOpen,
  allPlugsOut: part.allPlugsOut,
  tdcConfirmed: part.tdcConfirmed,
  gaugeZeroed: part.gaugeZeroed,
  crankingRpm: part.crankingRpm,
  altitudeM: part.altitudeM,
  barometerKpa: part.barometerKpa,
});

const readingOf = (fact: ReadingFact, own: Pick<ReadingRow, "testId" | "fileNo" | "standing">): ReadingRow => ({
  testId: own.testId,
  cylinder: fact.cylinder,
  value: fact.value,
  valueUnit: fact.valueUnit,
  supply: fact.supply,
  firstStroke: fact.firstStroke,
  heardAt: fact.heardAt.length === 0 ? null : fact.heardAt.join("+"),
  order: fact.order,
  remarks: fact.remarks,
  fileNo: own.fileNo,
  line: fact.line,
  standing: own.standing,
  supersedesId: null,
});

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
