import {
  type Columns,
  checkColumns,
  depotColumns,
  judgementColumns,
  meterColumns,
  type RowOf,
  repairColumns,
  unitColumns,
} from "../schema/rows.ts";
import { type Cause, causes } from "../schema/words.ts";
import { type FactSink, problemOf, type RowContext, report, type TakeRow } from "./fact-sink.ts";
import { type LooseRow, type Problem, rowReader } from "./row-reader.ts";
import { words } from "./words.ts";

/** Rows of units, depots, repairs, meter readings, checks and judgements (contract, section 3). */

interface KindOfRow<C extends Columns> {
  readonly columns: C;
  /** The column whose date may not lie after today. */
  readonly dateColumn: (keyof C & string) | null;
  readonly dateOf: (row: LooseRow<C>) => string | undefined;
  /** The column that names an engine model; null: none does. */
  readonly modelOf: (row: LooseRow<C>) => string | null | undefined;
  readonly add: (row: RowOf<C>, at: { readonly file: string; readonly line: number }, sink: FactSink) => void;
}

/** Rows of one kind: a row with any refusal is left out, and all its problems are told. */
function rowsOf<C extends Columns>(kind: KindOfRow<C>, context: RowContext): TakeRow {
  const { file, header, models, today } = context;
  const { places } = header;
  const read = rowReader(kind.columns, places);
  return (record, line, sink) => {
    const problems: Problem[] = [];
    const row = read(record, problems);
    const date = kind.dateOf(row);
    if (kind.dateColumn !== null && date !== undefined && today !== null && date > today) {
      const cell = { record, places, name: kind.dateColumn };
      problems.push(problemOf(cell, "refused", "date-after-today", words.dateAfterToday(date, today)));
    }
    const model = kind.modelOf(row);
    if (model !== undefined && model !== null && !models.has(model)) {
      const cell = { record, places, name: "engine_model" };
      problems.push(problemOf(cell, "refused", "model-unknown", words.modelUnknown(model, [...models.keys()])));
    }
    // No refusal: every cell was read.
    if (report(problems, { file, line }, sink.issues)) kind.add(row as RowOf<C>, { file, line }, sink);
  };
}

const noModel = () => null;

export const unitRows = (context: RowContext): TakeRow =>
  rowsOf<typeof unitColumns>(
    {
      columns: unitColumns,
      // A unit may be bought for, or leave on, a day to come.
      dateColumn: null,
      dateOf: () => undefined,
      modelOf: (row) => row.engine_model,
      add: (row, at, sink) =>
        sink.units.push({
          unit: row.unit,
          engineModel: row.engine_model,
          meterUnit: row.meter_unit,
          depot: row.depot,
          class: row.class,
          inServiceDate: row.in_service_date?.date ?? null,
          inServiceMeter: row.in_service_meter,
          engineSerial: row.engine_serial,
          disposalDate: row.disposal_date?.date ?? null,
          status: row.status,
          statusReason: row.status_reason,
          ...at,
        }),
    },
    context,
  );

export const depotRows = (context: RowContext): TakeRow =>
  rowsOf<typeof depotColumns>(
    {
      columns: depotColumns,
      dateColumn: null,
      dateOf: () => undefined,
      modelOf: noModel,
      add: (row, at, sink) => sink.depots.push({ depot: row.depot, altitudeM: row.altitude_m, ...at }),
    },
    context,
  );

export const repairRows = (context: RowContext): TakeRow =>
  rowsOf<typeof repairColumns>(
    {
      columns: repairColumns,
      dateColumn: "repair_date",
      dateOf: (row) => row.repair_date?.date,
      modelOf: noModel,
      add: (row, at, sink) =>
        sink.repairs.push({
          unit: row.unit,
          date: row.repair_date.date,
          meter: row.meter,
          scope: row.scope,
          cylinders: row.cylinders,
          found: foundIn(row),
          findings: row.findings,
          cost: row.cost,
          labourHours: row.labour_hours,
          downtimeDays: row.downtime_days,
          engineSerial: row.engine_serial,
          remarks: row.remarks,
          ...at,
        }),
    },
    context,
  );

/** What was found in a cylinder was found in the engine. */
const foundIn = ({ found, findings }: RowOf<typeof repairColumns>): readonly Cause[] => {
  const all = new Set([...found, ...findings.flatMap((finding) => finding.causes)]);
  return causes.filter((cause) => all.has(cause));
};

export const meterRows = (context: RowContext): TakeRow =>
  rowsOf<typeof meterColumns>(
    {
      columns: meterColumns,
      dateColumn: "reading_date",
      dateOf: (row) => row.reading_date?.date,
      modelOf: noModel,
      add: (row, at, sink) =>
        sink.meterReadings.push({
          unit: row.unit,
          date: row.reading_date.date,
          meter: row.meter,
          meterReset: row.meter_reset,
          ...at,
        }),
    },
    context,
  );

export const checkRows = (context: RowContext): TakeRow =>
  rowsOf<typeof checkColumns>(
    {
      columns: checkColumns,
      dateColumn: "check_date",
      dateOf: (row) => row.check_date?.date,
      modelOf: noModel,
      add: (row, at, sink) =>
        sink.checks.push({
          unit: row.unit,
          date: row.check_date.date,
          meter: row.meter,
          cylinder: row.cylinder,
          check: row.check,
          result: row.result,
          value: row.value,
          valueUnit: row.value_unit,
          remarks: row.remarks,
          ...at,
        }),
    },
    context,
  );

export const judgementRows = (context: RowContext): TakeRow =>
  rowsOf<typeof judgementColumns>(
    {
      columns: judgementColumns,
      dateColumn: "test_date",
      dateOf: (row) => row.test_date?.date,
      modelOf: noModel,
      add: (row, at, sink) =>
        sink.judgements.push({
          unit: row.unit,
          date: row.test_date.date,
          test: row.test,
          attempt: row.attempt,
          instrument: row.instrument,
          cylinder: row.cylinder,
          verdict: row.verdict,
          reason: row.reason,
          judgedBy: row.judged_by,
          ...at,
        }),
    },
    context,
  );
