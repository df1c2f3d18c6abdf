import type {
  CheckFact,
  JudgementFact,
  MeterFact,
  ReadingFact,
  RepairFact,
  TestFact,
  UnitFact,
} from "../schema/facts.ts";
import type { Proposal, RowIssue } from "../schema/intake.ts";
import { rowIssue } from "./words.ts";

/** All rows that tell of one unit. `tests` may be fragments. */
export interface UnitRows {
  readonly unit: string;
  readonly units: readonly UnitFact[];
  readonly tests: readonly TestFact[];
  readonly repairs: readonly RepairFact[];
  readonly meterReadings: readonly MeterFact[];
  readonly checks: readonly CheckFact[];
  readonly judgements: readonly JudgementFact[];
}

export const noRows = (unit: string): UnitRows => ({
  unit,
  units: [],
  tests: [],
  repairs: [],
  meterReadings: [],
  checks: [],
  judgements: [],
});

export const unitRowKinds = ["units", "tests", "repairs", "meterReadings", "checks", "judgements"] as const;
export type UnitRowKind = (typeof unitRowKinds)[number];
export type UnitRow<K extends UnitRowKind = UnitRowKind> = UnitRows[K][number];

/** Brings rows together by the unit that they tell of. */
export function unitCollector(): {
  readonly add: <K extends UnitRowKind>(kind: K, row: UnitRow<K>) => void;
  /** Ascending by the unit's name; the rows of each in the order in which they were added. */
  readonly all: () => readonly UnitRows[];
} {
  const byUnit = new Map<string, { readonly unit: string } & { readonly [K in UnitRowKind]: UnitRow<K>[] }>();
  return {
    add: (kind, row) => {
      let rows = byUnit.get(row.unit);
      if (rows === undefined) {
        rows = { unit: row.unit, units: [], tests: [], repairs: [], meterReadings: [], checks: [], judgements: [] };
        byUnit.set(row.unit, rows);
      }
      (rows[kind] as UnitRow[]).push(row);
    },
    all: () => [...byUnit.values()].sort((a, b) => byText(a.unit, b.unit)),
  };
}

export interface RowPlace {
  readonly file: string;
  readonly line: number;
}

/** Ascending by file, then line. */
export const byPlace = (a: RowPlace, b: RowPlace) => {
  if (a.file !== b.file) return a.file < b.file ? -1 : 1;
  return a.line - b.line;
};

/** Text by code units: the same everywhere, unlike a language's order. */
export const byText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);

export const placeOf = (test: TestFact, reading: ReadingFact): RowPlace => ({
  file: reading.file ?? test.file,
  line: reading.line,
});

/** An issue of a row that takes other rows to see; `column` as the contract spells it. */
export const issueAt = (
  place: RowPlace,
  issue: Pick<RowIssue, "severity" | "code" | "column" | "value">,
  why: string,
): RowIssue =>
  rowIssue(
    issue.severity,
    issue.code,
    { file: place.file, line: place.line, column: issue.column, value: issue.value },
    why,
  );

/** The issue with what may have been meant. */
export const withProposals = (issue: RowIssue, proposals: readonly Proposal[]): RowIssue =>
  proposals.length === 0 ? issue : { ...issue, proposals };

/** One issue for every line that the readings of a test stand on. */
export function issuesOfTest(
  test: TestFact,
  issue: Pick<RowIssue, "severity" | "code" | "column" | "value">,
  why: string,
): readonly RowIssue[] {
  const places = test.readings.map((reading) => placeOf(test, reading)).sort(byPlace);
  return places
    .filter((place, i) => i === 0 || byPlace(places[i - 1] as RowPlace, place) !== 0)
    .map((place) => issueAt(place, issue, why));
}
