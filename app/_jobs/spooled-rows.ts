import type { UnitRow, UnitRowKind } from "../../lib/intake/unit-rows.ts";
import type { ReadingFact, TestFact } from "../../lib/schema/facts.ts";

/**
 * Rows of units as lines of text, and back. A test is written without the names of its fields, for a million readings
 * pass by, and most of them have a cylinder, a value, a unit and a line alone.
 */

type HeadField = Exclude<keyof TestFact, "readings">;
// A record, so that no field can be missing; its order is that of the line.
const headFields = Object.keys({
  unit: true,
  date: true,
  time: true,
  meter: true,
  meterUnit: true,
  test: true,
  attempt: true,
  instrument: true,
  depot: true,
  engineSerial: true,
  engineModel: true,
  testedBy: true,
  file: true,
  orificeMm: true,
  warm: true,
  throttleOpen: true,
  allPlugsOut: true,
  tdcConfirmed: true,
  gaugeZeroed: true,
  crankingRpm: true,
  altitudeM: true,
  barometerKpa: true,
} satisfies Record<HeadField, true>) as HeadField[];

const nothingHeard: ReadingFact["heardAt"] = [];
/** Values of a reading that has nothing else to tell: cylinder, value, unit and line. */
const plainLength = 4;

const isPlain = (r: ReadingFact): boolean =>
  r.supply === null &&
  r.firstStroke === null &&
  r.heardAt.length === 0 &&
  r.order === null &&
  r.remarks === null &&
  r.file === undefined &&
  r.column === undefined &&
  r.byLayout === undefined;

/** One line of text that `rowOf` reads. */
export function lineOf<K extends UnitRowKind>(kind: K, row: UnitRow<K>): string {
  if (kind !== "tests") return JSON.stringify([kind, row]);
  const { readings, ...head } = row as TestFact;
  const values: unknown[] = ["tests"];
  for (const field of headFields) values.push(head[field]);
  for (const reading of readings) {
    if (isPlain(reading)) values.push(reading.cylinder, reading.value, reading.valueUnit, reading.line);
    else values.push(reading);
  }
  return JSON.stringify(values);
}

/** What `lineOf` wrote. */
export function rowOf(line: string): readonly [UnitRowKind, UnitRow] {
  const values = JSON.parse(line) as unknown[];
  if (values[0] !== "tests") return values as [UnitRowKind, UnitRow];
  const readings: ReadingFact[] = [];
  const head: Record<string, unknown> = {};
  for (let i = 0; i < headFields.length; i++) head[headFields[i] as HeadField] = values[i + 1];
  for (let at = headFields.length + 1; at < values.length; ) {
    const first = values[at];
    if (typeof first === "object") {
      readings.push(first as ReadingFact);
      at += 1;
      continue;
    }
    readings.push({
      cylinder: first as number,
      value: values[at + 1] as number,
      valueUnit: values[at + 2] as ReadingFact["valueUnit"],
      supply: null,
      firstStroke: null,
      heardAt: nothingHeard,
      order: null,
      remarks: null,
      line: values[at + 3] as number,
    });
    at += plainLength;
  }
  head["readings"] = readings;
  // Every field of a test was written above.
  return ["tests", head as unknown as TestFact];
}
