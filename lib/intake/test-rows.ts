import type { ReadingFact, TestFact } from "../schema/facts.ts";
import { longColumns, numberedColumns, type RowOf, wideColumns } from "../schema/rows.ts";
import type { Place } from "../schema/words.ts";
import { type FactSink, problemOf, type RowContext, report, type TakeRow } from "./fact-sink.ts";
import { type Finding, judgeHeard, judgeMeasure, judgeValue, type LooseReading } from "./judge-reading.ts";
import { cellProblem, cellReader, type LooseRow, type Problem, rowReader } from "./row-reader.ts";
import { words } from "./words.ts";

/** Rows of test results, long and wide, to fragments of tests. A wide row is the same as its readings as long rows. */

type TestRow = RowOf<typeof wideColumns>;

/** Rules for what a row says beside its readings; problems are added to `problems`. */
function judgeRow(
  row: LooseRow<typeof wideColumns>,
  reading: LooseReading,
  at: { readonly context: RowContext; readonly record: readonly string[]; readonly problems: Problem[] },
): void {
  const { today, models } = at.context;
  const date = row.test_date?.date;
  if (date !== undefined && today !== null && date > today) {
    add(at, "test_date", { severity: "refused", code: "date-after-today", why: words.dateAfterToday(date, today) });
  }
  const model = row.engine_model;
  if (model !== undefined && model !== null && !models.has(model)) {
    add(at, "engine_model", {
      severity: "refused",
      code: "model-unknown",
      why: words.modelUnknown(model, [...models.keys()]),
    });
  }
  for (const finding of judgeMeasure(reading)) add(at, finding.column, finding);
}

function add(
  at: { readonly context: RowContext; readonly record: readonly string[]; readonly problems: Problem[] },
  name: string,
  { severity, code, why }: Omit<Finding, "column">,
): void {
  const cell = { record: at.record, places: at.context.header.places, name };
  at.problems.push(problemOf(cell, severity, code, why));
}

const readingOf = (row: LooseRow<typeof wideColumns>): LooseReading => ({
  test: row.test,
  valueUnit: row.value_unit,
  supply: row.supply,
  firstStroke: row.first_stroke,
  orificeMm: row.orifice_mm,
});

interface OpenTest {
  readonly head: TestFact;
  readonly readings: ReadingFact[];
}

const sameHead = (head: TestFact, row: TestRow): boolean =>
  head.unit === row.unit &&
  head.date === row.test_date.date &&
  head.test === row.test &&
  head.attempt === row.attempt &&
  head.meter === row.meter &&
  head.instrument === row.instrument &&
  head.time === row.test_date.time &&
  head.meterUnit === row.meter_unit &&
  head.depot === row.depot &&
  head.engineSerial === row.engine_serial &&
  head.engineModel === row.engine_model &&
  head.testedBy === row.tested_by &&
  head.orificeMm === row.orifice_mm &&
  head.warm === row.warm &&
  head.throttleOpen === row.throttle_open &&
  head.allPlugsOut === row.all_plugs_out &&
  head.tdcConfirmed === row.tdc_confirmed &&
  head.gaugeZeroed === row.gauge_zeroed &&
  head.crankingRpm === row.cranking_rpm &&
  head.altitudeM === row.altitude_m &&
  head.barometerKpa === row.barometer_kpa;

const openTest = (row: TestRow, file: string): OpenTest => {
  const readings: ReadingFact[] = [];
  const head: TestFact = {
    unit: row.unit,
    date: row.test_date.date,
    time: row.test_date.time,
    meter: row.meter,
    meterUnit: row.meter_unit,
    test: row.test,
    attempt: row.attempt,
    instrument: row.instrument,
    depot: row.depot,
    engineSerial: row.engine_serial,
    engineModel: row.engine_model,
    testedBy: row.tested_by,
    file,
    readings,
    orificeMm: row.orifice_mm,
    warm: row.warm,
    throttleOpen: row.throttle_open,
    allPlugsOut: row.all_plugs_out,
    tdcConfirmed: row.tdc_confirmed,
    gaugeZeroed: row.gauge_zeroed,
    crankingRpm: row.cranking_rpm,
    altitudeM: row.altitude_m,
    barometerKpa: row.barometer_kpa,
  };
  return { head, readings };
};

const nothingHeard: readonly Place[] = [];
const nothingMore = {};

/** Adds readings to the test of the row before where that is the same test and chunk; else opens another fragment. */
export function fragments(file: string) {
  let open: OpenTest | null = null;
  let openIn: FactSink | null = null;
  return (
    row: TestRow,
    reading: Pick<ReadingFact, "cylinder" | "value" | "heardAt" | "column" | "byLayout">,
    at: { line: number; sink: FactSink },
  ) => {
    if (open === null || openIn !== at.sink || !sameHead(open.head, row)) {
      open = openTest(row, file);
      openIn = at.sink;
      at.sink.tests.push(open.head);
    }
    open.readings.push({
      cylinder: reading.cylinder,
      value: reading.value,
      valueUnit: row.value_unit,
      supply: row.supply,
      firstStroke: row.first_stroke,
      heardAt: row.test === "leak-down" ? reading.heardAt : nothingHeard,
      order: row.order,
      remarks: row.remarks,
      line: at.line,
      ...(reading.column === undefined ? nothingMore : { column: reading.column }),
      ...(reading.byLayout === undefined ? nothingMore : { byLayout: reading.byLayout }),
    });
  };
}

/** Where the rows of one column of a foreign file go: into tests that they share with those of its other columns. */
interface ForeignColumn {
  readonly addReading: ReturnType<typeof fragments>;
  /** The column of the readings, as the file spells it. */
  readonly column: string;
}

/** Rows of the long layout. A row with any refusal is left out; all its problems are told. */
export function longRows(context: RowContext, foreign?: ForeignColumn): TakeRow {
  const { file, header } = context;
  const read = rowReader(longColumns, header.places);
  const addReading = foreign?.addReading ?? fragments(file);
  const ofColumn = foreign === undefined ? nothingMore : ({ column: foreign.column, byLayout: true } as const);
  const problems: Problem[] = [];
  const tell = (finding: Finding | null, record: readonly string[]) => {
    if (finding === null) return;
    const cell = { record, places: header.places, name: finding.column };
    problems.push(problemOf(cell, finding.severity, finding.code, finding.why));
  };
  return (record, line, sink) => {
    problems.length = 0;
    const row = read(record, problems);
    const loose = readingOf(row);
    judgeRow(row, loose, { context, record, problems });
    if (row.value !== undefined) tell(judgeValue(row.value, loose, "value"), record);
    tell(judgeHeard(row.heard_at, row.test, "heard_at"), record);
    if (problems.length > 0 && !report(problems, { file, line }, sink.issues)) return;
    // No refusal: every cell was read.
    const full = row as RowOf<typeof longColumns>;
    const reading = { cylinder: full.cylinder, value: full.value, heardAt: full.heard_at, ...ofColumn };
    addReading(full, reading, { line, sink });
  };
}

/**
 * Rows of the wide layout. What is wrong with the row refuses all of it, what is wrong with one cylinder's cell that
 * reading alone. A cell of a column without a number holds for every cylinder of the row, but `heard_n` goes before
 * `heard_at`.
 */
export function wideRows(context: RowContext): TakeRow {
  const { file, header } = context;
  const read = rowReader(wideColumns, header.places);
  const readValue = cellReader(numberedColumns.cyl.schema);
  const readHeard = cellReader(numberedColumns.heard.schema);
  const addReading = fragments(file);

  /** What one cylinder's cells give: null where it was not measured or cannot be taken. */
  const measured = (
    record: readonly string[],
    row: LooseRow<typeof wideColumns>,
    { value, heard }: (typeof header.cylinders)[number],
  ) => {
    const problems: Problem[] = [];
    const text = value === null ? "" : (record[value.index] ?? "");
    const outcome = readValue(text);
    const column = value?.spelled ?? "";
    const heardText = heard === null ? "" : (record[heard.index] ?? "");
    const heardOutcome = readHeard(heardText);
    const add = (finding: Finding | null, cell: string) => {
      if (finding !== null) problems.push({ ...finding, value: cell.trim() });
    };
    if (!outcome.ok) problems.push(cellProblem(outcome.fault, text, numberedColumns.cyl, column));
    else if (outcome.value !== null) add(judgeValue(outcome.value, readingOf(row), column), text);
    if (!heardOutcome.ok) {
      problems.push(cellProblem(heardOutcome.fault, heardText, numberedColumns.heard, heard?.spelled ?? ""));
    } else add(judgeHeard(heardOutcome.value, row.test, heard?.spelled ?? ""), heardText);
    const own = heardOutcome.ok && heardOutcome.value.length > 0 ? heardOutcome.value : (row.heard_at ?? nothingHeard);
    return {
      problems,
      column,
      value: outcome.ok ? outcome.value : null,
      heardAt: own,
      blank: outcome.ok && outcome.value === null,
    };
  };

  return (record, line, sink) => {
    const problems: Problem[] = [];
    const row = read(record, problems);
    judgeRow(row, readingOf(row), { context, record, problems });
    const heardFinding = judgeHeard(row.heard_at, row.test, "heard_at");
    if (heardFinding !== null) {
      const cell = { record, places: header.places, name: heardFinding.column };
      problems.push(problemOf(cell, heardFinding.severity, heardFinding.code, heardFinding.why));
    }
    const cylinders = header.cylinders.map((c) => ({ cylinder: c.cylinder, ...measured(record, row, c) }));
    if (cylinders.every((c) => c.blank && c.problems.length === 0)) {
      problems.push({
        severity: "refused",
        code: "nothing-measured",
        column: null,
        value: null,
        why: words.nothingMeasured,
      });
    }
    const rowAccepted = report(problems, { file, line }, sink.issues);
    for (const { cylinder, column, value, heardAt, problems: own } of cylinders) {
      const accepted = report(own, { file, line }, sink.issues);
      if (!rowAccepted || !accepted || value === null) continue;
      // No refusal in the row: every cell was read.
      addReading(row as RowOf<typeof wideColumns>, { cylinder, value, heardAt, column }, { line, sink });
    }
  };
}
