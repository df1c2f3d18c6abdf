import {
  type Cell,
  cylinderFindings,
  cylinderList,
  date,
  longestText,
  type NumberRange,
  name,
  number,
  optionalDate,
  optionalNumber,
  optionalText,
  optionalWord,
  text,
  word,
  wordList,
  yesOrNo,
} from "./cells.ts";
import { longestName } from "./longest-name.ts";
import {
  causes,
  checkKinds,
  checkResults,
  type FileKind,
  measures,
  meterUnits,
  places,
  repairScopes,
  unitStatuses,
  valueUnits,
  verdicts,
} from "./words.ts";

/**
 * The columns of the CSV files (contract, sections 1 to 3): what each cell may hold, whether the column is needed, and
 * one line for people. Parser, template and documentation are all made from these lists.
 */

export interface Column<T = unknown> extends Cell<T> {
  readonly needed: boolean;
  /** When a column that may be missing must be filled all the same; empty: never. */
  readonly neededWhen: string;
  readonly about: string;
}

/** Columns by their canonical name. */
export type Columns = Readonly<Record<string, Column>>;
export type RowOf<C extends Columns> = { [K in keyof C]: C[K] extends Column<infer T> ? T : never };

const needed = <T>(cell: Cell<T>, about: string): Column<T> => ({ ...cell, needed: true, neededWhen: "", about });
const optional = <T>(cell: Cell<T>, about: string, neededWhen = ""): Column<T> => ({
  ...cell,
  needed: false,
  neededWhen,
  about,
});

/** Readings are judged by their unit (lib/intake/judge-reading.ts). */
const anyNumber: NumberRange = {};
const notNegative: NumberRange = { atLeast: 0 };
/** Far above what any money counts a repair in; a higher figure is a slip and drowns every sum. */
const costRange: NumberRange = { atLeast: 0, atMost: 1_000_000_000_000 };
/** More than ten years of one person's work. */
const labourRange: NumberRange = { atLeast: 0, atMost: 20_000 };
/** More than ten years. */
const downtimeRange: NumberRange = { atLeast: 0, atMost: 4_000 };
/** No starter turns faster, nor did the engine run. */
const crankingRange: NumberRange = { above: 0, atMost: 3_000 };
/** Beyond these lies no bore of a tester; what is likely within them, lib/intake/judge-reading.ts judges. */
const orificeRange: NumberRange = { atLeast: 0.01, atMost: 25 };
/** Nobody repeats a test so often in a day, nor counts cylinders so far. */
const countRange: NumberRange = { atLeast: 1, atMost: 100_000, whole: true };
/** In whatever unit; more is a slip. */
const measuredRange: NumberRange = { atLeast: -1_000_000_000, atMost: 1_000_000_000 };
/** No unit comes so far in its life, be it in km; one meter beyond it, and nothing reckoned from it holds. */
const meterRange: NumberRange = { atLeast: 0, atMost: 10_000_000 };
const aboveZero: NumberRange = { above: 0 };
/** Highest cylinder number that the files can carry. */
export const mostCylinders = 16;
const cylinderNumber: NumberRange = { atLeast: 1, atMost: mostCylinders, whole: true };
/** From below the Dead Sea's shore to above the highest road; anything else is another unit or a slip. */
const altitudeRange: NumberRange = { atLeast: -500, atMost: 9_000 };
/** From the air at 9,000 m to the highest pressure ever observed; anything else is hPa, mmHg or a slip. */
const barometerRange: NumberRange = { atLeast: 30, atMost: 110 };

const testColumns = {
  unit: needed(name, "fleet number of the unit"),
  engine_model: optional(optionalText(longestName), "key into the engine-model file", "the unit is new"),
  test_date: needed(date, "date of the test, YYYY-MM-DD; a time of day may follow"),
  meter: needed(number(meterRange), "reading of the unit's hour meter or odometer at the test"),
  meter_unit: needed(word(meterUnits), "h, km or mi; one unit keeps one meter unit"),
  test: needed(word(measures), "compression-dry, compression-wet or leak-down"),
} as const;

const readingColumns = {
  value_unit: needed(word(valueUnits), "compression: kPa, bar, psi or kgf/cm2; leak-down: % or a pressure unit"),
  attempt: optional(optionalNumber(countRange, 1), "1, 2, …: a repeat of the test on the same day; blank: 1"),
  supply: optional(
    optionalNumber(aboveZero, null),
    "regulated supply pressure, in value_unit; with %, in kPa",
    "value is a held pressure",
  ),
  orifice_mm: optional(optionalNumber(orificeRange, null), "restrictor bore of the leak-down tester, mm"),
  heard_at: optional(
    wordList(places, "none"),
    "leak-down: where air escaped (crankcase, inlet, exhaust, coolant, neighbour, none), joined by +",
  ),
  warm: optional(yesOrNo(null), "engine warm: yes or no"),
  throttle_open: optional(yesOrNo(null), "throttle open: yes or no"),
  all_plugs_out: optional(yesOrNo(null), "all plugs out: yes or no"),
  tdc_confirmed: optional(yesOrNo(null), "piston confirmed at top dead centre: yes or no"),
  gauge_zeroed: optional(yesOrNo(null), "gauge zeroed: yes or no"),
  cranking_rpm: optional(optionalNumber(crankingRange, null), "cranking speed, 1/min"),
  altitude_m: optional(optionalNumber(altitudeRange, null), "altitude of the place of the test, m"),
  barometer_kpa: optional(optionalNumber(barometerRange, null), "air pressure at the place of the test, kPa"),
  first_stroke: optional(optionalNumber(notNegative, null), "compression: gauge after the first stroke, in value_unit"),
  order: optional(optionalNumber(countRange, null), "place of this cylinder in the order of testing, from 1"),
  depot: optional(optionalText(longestName), "depot that the unit belongs to"),
  engine_serial: optional(optionalText(longestName), "serial number of the engine in the unit"),
  tested_by: optional(optionalText(longestName), "who made the test"),
  instrument: optional(optionalText(longestName), "gauge or tester used"),
  remarks: optional(optionalText(longestText), "free text"),
} as const;

export const longColumns = {
  ...testColumns,
  cylinder: needed(number(cylinderNumber), "1 to the engine's number of cylinders"),
  value: needed(number(anyNumber), "the reading"),
  ...readingColumns,
} as const satisfies Columns;

/** The wide layout's own columns; `cyl_1` … and `heard_1` … stand beside these (`numberedColumns`). */
export const wideColumns = { ...testColumns, ...readingColumns } as const satisfies Columns;

/** One of each for every cylinder of a wide row: `cyl_3` (also `cyl3`, `c3`, `3`) and `heard_3`. */
export const numberedColumns = {
  cyl: optional(optionalNumber(anyNumber, null), "the reading of cylinder n; blank or n/a: not measured"),
  heard: optional(wordList(places, "none"), "leak-down: where air escaped from cylinder n"),
} as const;

/** The column of one cylinder that a key (`columnKey`) of the wide layout names; null: it names none. */
export function numberedColumn(key: string): { readonly is: "cyl" | "heard"; readonly cylinder: number } | null {
  const found = /^(?:(cyl|c)?|(heard))0?([1-9]|1[0-6])$/.exec(key);
  return found === null ? null : { is: found[2] === undefined ? "cyl" : "heard", cylinder: Number(found[3]) };
}

export const unitColumns = {
  unit: needed(name, "fleet number of the unit"),
  engine_model: optional(optionalText(longestName), "key into the engine-model file", "the unit is new"),
  meter_unit: optional(optionalWord(meterUnits, null), "h, km or mi"),
  depot: optional(optionalText(longestName), "depot that the unit belongs to"),
  class: optional(optionalText(longestName), "kind of unit: van, pump, mower …"),
  in_service_date: optional(optionalDate, "date on which the unit went into service, YYYY-MM-DD"),
  in_service_meter: optional(optionalNumber(meterRange, null), "meter reading on that date"),
  engine_serial: optional(optionalText(longestName), "serial number of the engine in the unit"),
  disposal_date: optional(optionalDate, "date on which the unit is to leave the fleet, YYYY-MM-DD"),
  status: optional(
    optionalWord(unitStatuses, null),
    "in-service, stopped or retired; blank: as told before, else in-service",
  ),
  status_reason: optional(optionalText(longestText), "why it has that status"),
} as const satisfies Columns;

export const depotColumns = {
  depot: needed(name, "name of the depot"),
  altitude_m: optional(optionalNumber(altitudeRange, null), "its altitude, m"),
} as const satisfies Columns;

export const repairColumns = {
  unit: needed(name, "fleet number of the unit"),
  repair_date: needed(date, "date of the repair, YYYY-MM-DD"),
  meter: needed(number(meterRange), "meter reading at the repair"),
  scope: needed(word(repairScopes), "top-end, bottom-end, complete, engine-swap or adjustment"),
  cylinders: optional(cylinderList, "all (also when blank) or cylinder numbers joined by +"),
  found: optional(wordList(causes, null), "what the strip-down showed: causes joined by +"),
  findings: optional(
    cylinderFindings,
    "the same by cylinder: 2: exhaust-valve+inlet-valve; 3: sound, cylinders apart by semicolons",
  ),
  cost: optional(optionalNumber(costRange, null), "cost in the fleet's currency"),
  labour_hours: optional(optionalNumber(labourRange, null), "hours of labour"),
  downtime_days: optional(optionalNumber(downtimeRange, null), "days out of service"),
  engine_serial: optional(optionalText(longestName), "at a swap, the engine that came in"),
  remarks: optional(optionalText(longestText), "free text"),
} as const satisfies Columns;

export const meterColumns = {
  unit: needed(name, "fleet number of the unit"),
  reading_date: needed(date, "date of the reading, YYYY-MM-DD"),
  meter: needed(number(meterRange), "what the meter showed"),
  meter_reset: optional(yesOrNo(false), "yes where this reading is the first of a new meter", "the meter was replaced"),
} as const satisfies Columns;

export const checkColumns = {
  unit: needed(name, "fleet number of the unit"),
  check_date: needed(date, "date of the check, YYYY-MM-DD"),
  meter: optional(optionalNumber(meterRange, null), "meter reading at the check"),
  cylinder: optional(optionalNumber(cylinderNumber, null), "cylinder looked at; blank: the engine"),
  check: needed(word(checkKinds), `what was checked: ${checkKinds.join(", ")}`),
  result: needed(word(checkResults), "clear, suspect or fault"),
  value: optional(optionalNumber(measuredRange, null), "what was measured"),
  value_unit: optional(optionalText(longestName), "unit of the value"),
  remarks: optional(optionalText(longestText), "free text; a fault may name its cause as cause: exhaust-valve"),
} as const satisfies Columns;

const judgementColumns = {
  unit: needed(name, "fleet number of the unit"),
  test_date: needed(date, "date of the test that is judged, YYYY-MM-DD"),
  test: needed(word(measures), "compression-dry, compression-wet or leak-down"),
  attempt: optional(optionalNumber(countRange, 1), "which test of that day; blank: 1"),
  instrument: optional(optionalText(longestName), "gauge or tester used, as the test names it"),
  cylinder: optional(
    optionalNumber(cylinderNumber, null),
    "the cylinder whose reading is judged; blank: the whole test",
  ),
  verdict: needed(
    word(verdicts),
    "set-aside, accepted, withdrawn (told in error), or none: what was said before is taken back; of a cylinder also fault (one had begun in it by this test) or no-fault",
  ),
  reason: needed(text(longestText), "why"),
  judged_by: needed(name, "who judged it"),
} as const satisfies Columns;

/** The kinds of file that are CSV. */
export type CsvKind = Exclude<FileKind, "engine-models">;

export const columnsOf = {
  "tests-long": longColumns,
  "tests-wide": wideColumns,
  units: unitColumns,
  depots: depotColumns,
  repairs: repairColumns,
  meters: meterColumns,
  checks: checkColumns,
  judgements: judgementColumns,
} as const satisfies Record<CsvKind, Columns>;

/** Column names are compared without case, blanks, `-` and `_`. */
export const columnKey = (name: string): string => name.toLowerCase().replace(/[\s_-]/g, "");
