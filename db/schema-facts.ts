import { sql } from "drizzle-orm";
import type { EngineModel } from "../lib/schema/engine-model.ts";
import type { CylinderFinding, RepairFact } from "../lib/schema/facts.ts";
import type {
  Cause,
  CheckKind,
  CheckResult,
  Measure,
  MeterUnit,
  RepairScope,
  UnitStatus,
  ValueUnit,
  Verdict,
} from "../lib/schema/words.ts";
import type { ImportTables } from "./schema-imports.ts";
import type { Vocabulary } from "./vocabulary.ts";

/**
 * How a row stands beside what was visible when its import was compared: for the counts, and to pass quickly over rows
 * that add nothing. `withChanges`: new, but it holds only beside what the same import changes, and counts only where
 * its changes were taken. A `known` row is kept: it is what is left when the import that told it first is undone.
 */
export const standing = { new: 0, changed: 1, known: 2, withChanges: 3 } as const;
export type Standing = (typeof standing)[keyof typeof standing];

/**
 * Facts as written. Every row belongs to an import and is visible while that import is committed. Rows with the same
 * `factKey` tell of the same thing: the one of the highest rank whose changes were taken stands, and what it leaves
 * blank the next one tells; declined changes count only where nothing before them is left.
 * Nothing is ever overwritten, so undoing an import is a change of its state alone.
 */
export function factTables(v: Vocabulary, { imports }: ImportTables) {
  const fact = () => ({
    id: v.id(),
    importId: v
      .text()
      .notNull()
      .references(() => imports.id),
    factKey: v.text().notNull(),
    standing: v.int().$type<Standing>().notNull(),
    /** The visible row that it repeats in part or corrects, as of the comparison. */
    supersedesId: v.int(),
    fileNo: v.int().notNull(),
    line: v.int().notNull(),
  });

  const tests = v.table(
    "tests",
    {
      ...fact(),
      unit: v.text().notNull(),
      date: v.date().notNull(),
      time: v.text(),
      meter: v.real().notNull(),
      meterUnit: v.word<MeterUnit>().notNull(),
      test: v.word<Measure>().notNull(),
      attempt: v.int().notNull(),
      instrument: v.text(),
      depot: v.text(),
      engineSerial: v.text(),
      engineModel: v.text(),
      testedBy: v.text(),
      orificeMm: v.real(),
      warm: v.bool(),
      throttleOpen: v.bool(),
      allPlugsOut: v.bool(),
      tdcConfirmed: v.bool(),
      gaugeZeroed: v.bool(),
      crankingRpm: v.real(),
      altitudeM: v.real(),
      barometerKpa: v.real(),
    },
    (t) => [
      v.unique("tests_key").on(t.factKey, t.importId),
      v.index("tests_unit").on(t.unit),
      v.index("tests_import").on(t.importId),
      v.index("tests_depot").on(t.depot, t.importId).where(sql`depot is not null`),
      v.index("tests_engine_serial").on(t.engineSerial).where(sql`engine_serial is not null`),
    ],
  );

  const readings = v.table(
    "readings",
    {
      testId: v
        .int()
        .notNull()
        .references(() => tests.id, { onDelete: "cascade" }),
      cylinder: v.int().notNull(),
      value: v.real().notNull(),
      valueUnit: v.word<ValueUnit>().notNull(),
      supply: v.real(),
      firstStroke: v.real(),
      /** Places joined by `+`; null: not recorded. */
      heardAt: v.text(),
      order: v.int(),
      remarks: v.text(),
      fileNo: v.int().notNull(),
      line: v.int().notNull(),
      standing: v.int().$type<Standing>().notNull(),
      /** The test row of the reading that it corrects. */
      supersedesId: v.int(),
    },
    (t) => [v.primaryKey({ columns: [t.testId, t.cylinder] })],
  );

  const unitFacts = v.table(
    "unit_facts",
    {
      ...fact(),
      unit: v.text().notNull(),
      engineModel: v.text(),
      meterUnit: v.word<MeterUnit>(),
      depot: v.text(),
      class: v.text(),
      inServiceDate: v.date(),
      inServiceMeter: v.real(),
      engineSerial: v.text(),
      disposalDate: v.date(),
      status: v.word<UnitStatus>(),
      statusReason: v.text(),
    },
    (t) => [
      v.unique("unit_facts_key").on(t.factKey, t.importId),
      v.index("unit_facts_unit").on(t.unit),
      v.index("unit_facts_import").on(t.importId),
      v.index("unit_facts_engine_serial").on(t.engineSerial),
    ],
  );

  const depotFacts = v.table("depot_facts", { ...fact(), depot: v.text().notNull(), altitudeM: v.real() }, (t) => [
    v.unique("depot_facts_key").on(t.factKey, t.importId),
    v.index("depot_facts_import").on(t.importId),
  ]);

  const repairs = v.table(
    "repairs",
    {
      ...fact(),
      unit: v.text().notNull(),
      date: v.date().notNull(),
      meter: v.real().notNull(),
      scope: v.word<RepairScope>().notNull(),
      cylinders: v.json<RepairFact["cylinders"]>().notNull(),
      found: v.json<readonly Cause[]>().notNull(),
      findings: v.json<readonly CylinderFinding[]>().notNull().default([]),
      cost: v.real(),
      labourHours: v.real(),
      downtimeDays: v.real(),
      engineSerial: v.text(),
      remarks: v.text(),
    },
    (t) => [
      v.unique("repairs_key").on(t.factKey, t.importId),
      v.index("repairs_unit").on(t.unit),
      v.index("repairs_import").on(t.importId),
      v.index("repairs_engine_serial").on(t.engineSerial),
    ],
  );

  const meterReadings = v.table(
    "meter_readings",
    {
      ...fact(),
      unit: v.text().notNull(),
      date: v.date().notNull(),
      meter: v.real().notNull(),
      meterReset: v.bool().notNull(),
    },
    (t) => [
      v.unique("meter_readings_key").on(t.factKey, t.importId),
      v.index("meter_readings_unit").on(t.unit),
      v.index("meter_readings_import").on(t.importId),
    ],
  );

  const checks = v.table(
    "checks",
    {
      ...fact(),
      unit: v.text().notNull(),
      date: v.date().notNull(),
      meter: v.real(),
      cylinder: v.int(),
      check: v.word<CheckKind>().notNull(),
      result: v.word<CheckResult>().notNull(),
      value: v.real(),
      valueUnit: v.text(),
      remarks: v.text(),
    },
    (t) => [
      v.unique("checks_key").on(t.factKey, t.importId),
      v.index("checks_unit").on(t.unit),
      v.index("checks_import").on(t.importId),
    ],
  );

  /** What persons made of tests; of one test, or one cylinder of it, the last one holds. */
  const judgements = v.table(
    "judgements",
    {
      ...fact(),
      unit: v.text().notNull(),
      date: v.date().notNull(),
      test: v.word<Measure>().notNull(),
      attempt: v.int().notNull(),
      instrument: v.text(),
      cylinder: v.int(),
      verdict: v.word<Verdict>().notNull(),
      reason: v.text().notNull(),
      judgedBy: v.text().notNull(),
    },
    (t) => [
      v.unique("judgements_key").on(t.factKey, t.importId),
      v.index("judgements_unit").on(t.unit),
      v.index("judgements_import").on(t.importId),
    ],
  );

  const engineModelVersions = v.table(
    "engine_model_versions",
    {
      ...fact(),
      engineModel: v.text().notNull(),
      /** Counts up from 1 for each model, given at commit; null: not committed yet. */
      version: v.int(),
      model: v.json<EngineModel>().notNull(),
    },
    (t) => [
      v.unique("engine_model_versions_key").on(t.factKey, t.importId),
      v.index("engine_model_versions_import").on(t.importId),
    ],
  );

  return { tests, readings, unitFacts, depotFacts, repairs, meterReadings, checks, judgements, engineModelVersions };
}
