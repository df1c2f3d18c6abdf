import type { ReadingFact, TestFact } from "../schema/facts.ts";
import type { RowIssue } from "../schema/intake.ts";
import { testKey } from "./fact-keys.ts";
import { byPlace, byText, issueAt, placeOf, type RowPlace } from "./unit-rows.ts";
import { reading as readingWords, words } from "./words.ts";

interface Entry {
  readonly test: TestFact;
  readonly reading: ReadingFact;
}

type HeadField = Exclude<keyof TestFact, "unit" | "date" | "test" | "attempt" | "instrument" | "file" | "readings">;
/** The columns of what may be given differently in the rows of one test; null: differing is usual, so nobody is told. */
const headColumns: Record<HeadField, string | null> = {
  time: null,
  meter: "meter",
  meterUnit: "meter_unit",
  depot: "depot",
  engineSerial: "engine_serial",
  engineModel: "engine_model",
  testedBy: "tested_by",
  orificeMm: "orifice_mm",
  warm: "warm",
  throttleOpen: "throttle_open",
  allPlugsOut: "all_plugs_out",
  tdcConfirmed: "tdc_confirmed",
  gaugeZeroed: "gauge_zeroed",
  crankingRpm: null,
  altitudeM: "altitude_m",
  barometerKpa: "barometer_kpa",
};
const headFields = Object.keys(headColumns) as HeadField[];

type Scalar = string | number | boolean;
const byScalar = (a: Scalar, b: Scalar) =>
  typeof a === "string" && typeof b === "string" ? byText(a, b) : Number(a) - Number(b);

/** The different values, ascending; nulls say nothing. */
export const distinct = <T extends Scalar>(values: readonly (T | null)[]): readonly T[] =>
  [...new Set(values.filter((v): v is T => v !== null))].sort(byScalar);

export const toldAs = (value: Scalar) => (typeof value === "boolean" ? (value ? "yes" : "no") : String(value));

const sameReading = (a: ReadingFact, b: ReadingFact) =>
  a.value === b.value && a.valueUnit === b.valueUnit && a.supply === b.supply;

const exactly = (a: Entry, b: Entry) =>
  sameReading(a.reading, b.reading) &&
  a.reading.firstStroke === b.reading.firstStroke &&
  a.reading.order === b.reading.order &&
  a.reading.remarks === b.reading.remarks &&
  a.reading.heardAt.join("+") === b.reading.heardAt.join("+") &&
  headFields.every((field) => a.test[field] === b.test[field]);

/** Rows of the same reading as one: each detail is the first in order of value that is not blank. */
function joined(entries: readonly Entry[]): ReadingFact {
  const first = entries[0] as Entry;
  const readings = entries.map((e) => e.reading);
  const heard = [...readings].sort((a, b) => byText(a.heardAt.join("+"), b.heardAt.join("+")));
  return {
    ...first.reading,
    firstStroke: distinct(readings.map((r) => r.firstStroke))[0] ?? null,
    order: distinct(readings.map((r) => r.order))[0] ?? null,
    remarks: distinct(readings.map((r) => r.remarks))[0] ?? null,
    heardAt: heard.find((r) => r.heardAt.length > 0)?.heardAt ?? [],
  };
}

/** A row that says what another one said. */
interface Repeat {
  readonly place: RowPlace;
  readonly cylinder: number;
  /** Wide layout: the column of the reading. */
  readonly column: string | undefined;
  /** Also all details are the same. */
  readonly exactly: boolean;
  readonly of: RowPlace;
}

/** All rows of one cylinder of one test: the entry that counts, or none where they stand against each other. */
function settle(entries: readonly Entry[], issues: RowIssue[], repeats: Repeat[]): Entry | null {
  const sorted = [...entries].sort((a, b) => byPlace(placeOf(a.test, a.reading), placeOf(b.test, b.reading)));
  const first = sorted[0] as Entry;
  if (sorted.length === 1) return first;
  const told = (e: Entry) => ({
    ...placeOf(e.test, e.reading),
    said: readingWords(e.reading.value, e.reading.valueUnit),
  });
  if (sorted.every((e) => sameReading(e.reading, first.reading))) {
    for (const [i, entry] of sorted.slice(1).entries()) {
      const place = placeOf(entry.test, entry.reading);
      const twin = sorted.slice(0, i + 1).find((e) => exactly(e, entry));
      // The same file given twice is no news.
      if (twin !== undefined && byPlace(placeOf(twin.test, twin.reading), place) === 0) continue;
      const { cylinder, column } = entry.reading;
      const of = placeOf((twin ?? first).test, (twin ?? first).reading);
      repeats.push({ place, cylinder, column, exactly: twin !== undefined, of });
    }
    return { test: first.test, reading: joined(sorted) };
  }
  for (const entry of sorted) {
    const place = placeOf(entry.test, entry.reading);
    const others = sorted.filter((e) => !sameReading(e.reading, entry.reading)).map(told);
    const { value, cylinder, column = "value" } = entry.reading;
    const issue = { severity: "refused", code: "contradicted", column, value: String(value) } as const;
    issues.push(issueAt(place, issue, words.contradicted({ ...told(entry), cylinder }, others, place.file)));
  }
  return null;
}

/**
 * One issue for each row of the test that repeats others. A wide row of which only some readings do is told cell by
 * cell: it is not the row that counts once.
 */
function tellRepeats(repeats: readonly Repeat[], entries: readonly Entry[], issues: RowIssue[]): void {
  if (repeats.length === 0) return;
  const keyOf = ({ file, line }: RowPlace) => `${line} ${file}`;
  const readings = new Map<string, number>();
  for (const { test, reading } of entries) {
    const key = keyOf(placeOf(test, reading));
    readings.set(key, (readings.get(key) ?? 0) + 1);
  }
  const byRow = new Map<string, Repeat[]>();
  for (const repeat of repeats) {
    const same = byRow.get(keyOf(repeat.place));
    if (same === undefined) byRow.set(keyOf(repeat.place), [repeat]);
    else same.push(repeat);
  }
  for (const [key, same] of byRow) {
    const whole = same.length === readings.get(key) && same.every((r) => keyOf(r.of) === keyOf((same[0] as Repeat).of));
    const exact = same.every((r) => r.exactly);
    for (const { place, of, exactly, column, cylinder } of whole ? same.slice(0, 1) : same) {
      const isExact = whole ? exact : exactly;
      const cell = whole ? null : (column ?? null);
      const issue = isExact
        ? ({ severity: "mention", code: "repeated", column: cell, value: null } as const)
        : ({ severity: "warning", code: "repeated-otherwise", column: cell, value: null } as const);
      const exactWords = cell === null ? words.repeated(of, place.file) : words.repeatedCell(cylinder, of, place.file);
      issues.push(issueAt(place, issue, isExact ? exactWords : words.repeatedOtherwise(of, place.file)));
    }
  }
}

/** The head of a test from the heads of its fragments: each field the first in order of value that is not blank. */
function joinedHead(entries: readonly Entry[], issues: RowIssue[]): TestFact {
  const heads = [...new Set(entries.map((e) => e.test))];
  const first = heads[0] as TestFact;
  if (heads.length === 1) return first;
  const taken: Partial<Record<HeadField, Scalar | null>> = {};
  const place = entries.map((e) => placeOf(e.test, e.reading)).sort(byPlace)[0] ?? { file: first.file, line: 1 };
  for (const field of headFields) {
    const values = distinct<Scalar>(heads.map((head) => head[field]));
    const column = headColumns[field];
    taken[field] = values[0] ?? null;
    if (values.length < 2 || column === null) continue;
    const told = values.map(toldAs);
    const why = words.disagreement(
      `the ${first.test} test of ${first.unit} on ${first.date}`,
      column,
      told,
      told[0] ?? "",
    );
    issues.push(issueAt(place, { severity: "warning", code: "disagreement", column, value: told[0] ?? null }, why));
  }
  // Each field took one of the values that it has in a fragment.
  return { ...first, ...(taken as Pick<TestFact, HeadField>), file: place.file };
}

const ascends = (readings: readonly ReadingFact[]) =>
  readings.every((r, i) => i === 0 || (readings[i - 1] as ReadingFact).cylinder < r.cylinder);

/**
 * Fragments of one unit's tests to whole tests, ascending by date, test, attempt and instrument, readings by cylinder.
 * The order in which rows and files come makes no difference. Rows that say the same count once (with a mention, or a
 * warning where details differ); rows that give another value for the same cylinder of the same test are all refused.
 * Where rows of one test differ in what holds for all of it (meter, set-up …), the lowest value is taken, with a
 * warning; time of day and cranking speed may differ freely. `file` is that of the test's first row;
 * a reading that came from another file carries its own.
 */
export function mergeTests(fragments: readonly TestFact[]): {
  tests: readonly TestFact[];
  issues: readonly RowIssue[];
} {
  const groups = new Map<string, TestFact[]>();
  for (const fragment of fragments) {
    const key = testKey(fragment);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [fragment]);
    else group.push(fragment);
  }
  const tests: TestFact[] = [];
  const issues: RowIssue[] = [];
  for (const group of groups.values()) {
    const only = group[0] as TestFact;
    if (group.length === 1 && ascends(only.readings)) {
      tests.push(only);
      continue;
    }
    const byCylinder = new Map<number, Entry[]>();
    for (const test of group) {
      for (const reading of test.readings) {
        const entries = byCylinder.get(reading.cylinder);
        if (entries === undefined) byCylinder.set(reading.cylinder, [{ test, reading }]);
        else entries.push({ test, reading });
      }
    }
    const cylinders = [...byCylinder.keys()].sort((a, b) => a - b);
    const repeats: Repeat[] = [];
    const settled = cylinders.map((c) => ({ cylinder: c, entry: settle(byCylinder.get(c) ?? [], issues, repeats) }));
    tellRepeats(repeats, [...byCylinder.values()].flat(), issues);
    const kept = settled.flatMap(({ entry }) => (entry === null ? [] : [entry]));
    if (kept.length === 0) continue;
    // Rows that were counted once still speak for the head; rows that were refused do not.
    const speaking = settled.flatMap(({ cylinder, entry }) => (entry === null ? [] : (byCylinder.get(cylinder) ?? [])));
    const head = joinedHead(speaking, issues);
    const readings = kept.map(({ test, reading }) =>
      test.file === head.file ? reading : { ...reading, file: test.file },
    );
    tests.push({ ...head, readings });
  }
  const order = (a: TestFact, b: TestFact) =>
    byText(a.date, b.date) ||
    byText(a.test, b.test) ||
    a.attempt - b.attempt ||
    byText(a.instrument ?? "", b.instrument ?? "");
  return { tests: tests.sort(order), issues };
}
