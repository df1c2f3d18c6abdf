import { type Columns, columnsOf, type RowOf } from "../schema/rows.ts";
import { type Cause, causes, isOfCylinder } from "../schema/words.ts";
import { type FactSink, problemOf, type RowContext, report, type TakeRow } from "./fact-sink.ts";
import { type Problem, rowReader } from "./row-reader.ts";
import { words } from "./words.ts";

/** Rows of units, depots, repairs, meter readings, checks and judgements (contract, section 3). */

type OtherKind = "units" | "depots" | "repairs" | "meters" | "checks" | "judgements";

/** Rows of one kind of file: each is one fact. */
interface Shape<C extends Columns> {
  /** The column whose date may not lie after today. */
  readonly dateColumn: (keyof C & string) | null;
  /** A column that this row may not leave blank, though others may. */
  readonly needs?: (row: RowOf<C>) => { readonly column: keyof C & string; readonly why: string } | null;
  readonly add: (row: RowOf<C>, at: { readonly file: string; readonly line: number }, sink: FactSink) => void;
}

const shapes: { readonly [K in OtherKind]: Shape<(typeof columnsOf)[K]> } = {
  units: {
    // A unit may be bought for, or leave on, a day to come.
    dateColumn: null,
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
  depots: {
    dateColumn: null,
    add: (row, at, sink) => sink.depots.push({ depot: row.depot, altitudeM: row.altitude_m, ...at }),
  },
  repairs: {
    dateColumn: "repair_date",
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
  meters: {
    dateColumn: "reading_date",
    add: (row, at, sink) =>
      sink.meterReadings.push({
        unit: row.unit,
        date: row.reading_date.date,
        meter: row.meter,
        meterReset: row.meter_reset,
        ...at,
      }),
  },
  checks: {
    dateColumn: "check_date",
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
  judgements: {
    dateColumn: "test_date",
    needs: ({ cylinder, verdict }) =>
      cylinder === null && isOfCylinder(verdict) ? { column: "cylinder", why: words.cylinderOfVerdict(verdict) } : null,
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
};

/** What was found in a cylinder was found in the engine. */
const foundIn = ({ found, findings }: RowOf<(typeof columnsOf)["repairs"]>): readonly Cause[] => {
  const all = new Set([...found, ...findings.flatMap((finding) => finding.causes)]);
  return causes.filter((cause) => all.has(cause));
};

/** Takes the rows of one kind: a row with any refusal is left out, and all its problems are told. */
export const otherRows =
  <K extends OtherKind>(kind: K) =>
  (context: RowContext): TakeRow =>
    rowsOf(columnsOf[kind] as Columns, shapes[kind] as unknown as Shape<Columns>, context);

function rowsOf(columns: Columns, { dateColumn, needs, add }: Shape<Columns>, context: RowContext): TakeRow {
  const { file, header, models, today } = context;
  const { places } = header;
  const read = rowReader(columns, places);
  return (record, line, sink) => {
    const problems: Problem[] = [];
    const row = read(record, problems);
    const cellOf = (name: string) => ({ record, places, name });
    // The cell schema of a date gives its day; a cell that was refused is not there.
    const date = dateColumn === null ? undefined : (row[dateColumn] as { readonly date: string } | undefined)?.date;
    if (dateColumn !== null && date !== undefined && today !== null && date > today) {
      problems.push(problemOf(cellOf(dateColumn), "refused", "date-after-today", words.dateAfterToday(date, today)));
    }
    const model = row["engine_model"];
    if (typeof model === "string" && !models.has(model)) {
      const why = words.modelUnknown(model, [...models.keys()]);
      problems.push(problemOf(cellOf("engine_model"), "refused", "model-unknown", why));
    }
    const needed = problems.length === 0 ? needs?.(row as RowOf<Columns>) : null;
    if (needed) problems.push(problemOf(cellOf(needed.column), "refused", "cell-missing", needed.why));
    // No refusal: every cell was read.
    if (report(problems, { file, line }, sink.issues)) add(row as RowOf<Columns>, { file, line }, sink);
  };
}
