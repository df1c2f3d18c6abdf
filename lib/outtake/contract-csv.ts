import type {
  CheckFact,
  CylinderFinding,
  DepotFact,
  IsoDate,
  JudgementFact,
  MeterFact,
  ReadingFact,
  RepairFact,
  TestFact,
  UnitFact,
} from "../schema/facts.ts";
import { type CsvKind, columnsOf } from "../schema/rows.ts";
import { type CsvCell, csvLine } from "./csv.ts";

/**
 * Facts as the CSV files of the contract (sections 1 to 3): the way out of what `lib/intake` reads in. Read again they give
 * the same facts, but for the file and line that each came from.
 */

/** The columns of one row by their canonical names; what is left out is blank. */
type Row = Readonly<Record<string, CsvCell | undefined>>;

/** The kinds of file that facts are written to: of test results the long layout alone. */
export type WrittenKind = Exclude<CsvKind, "tests-wide">;
/** What is written of a fact: all but the place that it was read from. */
type Written<F> = Omit<F, "file" | "line">;
/** Facts to be written, of any kinds. */
export interface Told {
  readonly depots?: readonly Written<DepotFact>[];
  readonly units?: readonly Written<UnitFact>[];
  readonly tests?: readonly (Written<Omit<TestFact, "readings">> & {
    readonly readings: readonly Written<ReadingFact>[];
  })[];
  readonly repairs?: readonly Written<RepairFact>[];
  readonly meterReadings?: readonly Written<MeterFact>[];
  readonly checks?: readonly Written<CheckFact>[];
  readonly judgements?: readonly Written<JudgementFact>[];
}

const yesOrNo = (value: boolean | null): CsvCell => (value === null ? null : value ? "yes" : "no");
const joined = (words: readonly (string | number)[]): CsvCell => (words.length === 0 ? null : words.join("+"));
const dateAndTime = (date: IsoDate, time: string | null): string => (time === null ? date : `${date}T${time}`);

/** One row for each reading: the long layout. */
const testRows = (test: NonNullable<Told["tests"]>[number]): Row[] =>
  test.readings.map((reading) => ({
    unit: test.unit,
    engine_model: test.engineModel,
    test_date: dateAndTime(test.date, test.time),
    meter: test.meter,
    meter_unit: test.meterUnit,
    test: test.test,
    cylinder: reading.cylinder,
    value: reading.value,
    value_unit: reading.valueUnit,
    attempt: test.attempt,
    supply: reading.supply,
    orifice_mm: test.orificeMm,
    heard_at: joined(reading.heardAt),
    warm: yesOrNo(test.warm),
    throttle_open: yesOrNo(test.throttleOpen),
    all_plugs_out: yesOrNo(test.allPlugsOut),
    tdc_confirmed: yesOrNo(test.tdcConfirmed),
    gauge_zeroed: yesOrNo(test.gaugeZeroed),
    cranking_rpm: test.crankingRpm,
    altitude_m: test.altitudeM,
    barometer_kpa: test.barometerKpa,
    first_stroke: reading.firstStroke,
    order: reading.order,
    depot: test.depot,
    engine_serial: test.engineSerial,
    tested_by: test.testedBy,
    instrument: test.instrument,
    remarks: reading.remarks,
  }));

const unitRow = (unit: Written<UnitFact>): Row => ({
  unit: unit.unit,
  engine_model: unit.engineModel,
  meter_unit: unit.meterUnit,
  depot: unit.depot,
  class: unit.class,
  in_service_date: unit.inServiceDate,
  in_service_meter: unit.inServiceMeter,
  engine_serial: unit.engineSerial,
  disposal_date: unit.disposalDate,
  status: unit.status,
  status_reason: unit.statusReason,
});

const depotRow = ({ depot, altitudeM }: Written<DepotFact>): Row => ({ depot, altitude_m: altitudeM });

const findingsText = (findings: readonly CylinderFinding[]): CsvCell =>
  findings.length === 0
    ? null
    : findings.map(({ cylinder, causes }) => `${cylinder}: ${joined(causes) ?? "sound"}`).join("; ");

const repairRow = (repair: Written<RepairFact>): Row => ({
  unit: repair.unit,
  repair_date: repair.date,
  meter: repair.meter,
  scope: repair.scope,
  cylinders: repair.cylinders === "all" ? "all" : joined(repair.cylinders),
  found: joined(repair.found),
  findings: findingsText(repair.findings),
  cost: repair.cost,
  labour_hours: repair.labourHours,
  downtime_days: repair.downtimeDays,
  engine_serial: repair.engineSerial,
  remarks: repair.remarks,
});

const meterRow = ({ unit, date, meter, meterReset }: Written<MeterFact>): Row => ({
  unit,
  reading_date: date,
  meter,
  meter_reset: meterReset ? "yes" : "no",
});

const checkRow = (check: Written<CheckFact>): Row => ({
  unit: check.unit,
  check_date: check.date,
  meter: check.meter,
  cylinder: check.cylinder,
  check: check.check,
  result: check.result,
  value: check.value,
  value_unit: check.valueUnit,
  remarks: check.remarks,
});

const judgementRow = (judgement: Written<JudgementFact>): Row => ({
  unit: judgement.unit,
  test_date: judgement.date,
  test: judgement.test,
  attempt: judgement.attempt,
  instrument: judgement.instrument,
  cylinder: judgement.cylinder,
  verdict: judgement.verdict,
  reason: judgement.reason,
  judged_by: judgement.judgedBy,
});

const rowsOf: { readonly [K in WrittenKind]: (told: Told) => readonly Row[] } = {
  depots: ({ depots = [] }) => depots.map(depotRow),
  units: ({ units = [] }) => units.map(unitRow),
  "tests-long": ({ tests = [] }) => tests.flatMap(testRows),
  repairs: ({ repairs = [] }) => repairs.map(repairRow),
  meters: ({ meterReadings = [] }) => meterReadings.map(meterRow),
  checks: ({ checks = [] }) => checks.map(checkRow),
  judgements: ({ judgements = [] }) => judgements.map(judgementRow),
};

/** The kinds of file that facts are written to, in the order in which they are best read again. */
export const writtenKinds = Object.keys(rowsOf) as readonly WrittenKind[];

/** The rows of one kind that facts come to: none where they tell of other kinds alone. */
export const factsOf = (kind: WrittenKind, told: Told): readonly Row[] => rowsOf[kind](told);

const fieldsOf = (kind: WrittenKind): readonly string[] => Object.keys(columnsOf[kind]);

/** The header row of one CSV file of the contract: every column of the kind. */
export const contractHeader = (kind: WrittenKind): string => csvLine(fieldsOf(kind));

/** The rows of one kind below its header, as text. Facts of other kinds are passed over. */
export const contractRows = (kind: WrittenKind, told: Told): string =>
  rowsOf[kind](told)
    .map((row) => csvLine(fieldsOf(kind).map((field) => row[field] ?? null)))
    .join("");

/**
 * The text of one CSV file of the contract: a header row with every column of the kind, then a row for each fact (for each
 * reading of a test). Lines end in CR LF, as RFC 4180 has it.
 */
export const contractCsv = (kind: WrittenKind, told: Told): string => contractHeader(kind) + contractRows(kind, told);
