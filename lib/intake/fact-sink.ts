import type { EngineModel } from "../schema/engine-model.ts";
import type {
  CheckFact,
  DepotFact,
  JudgementFact,
  MeterFact,
  RepairFact,
  TestFact,
  UnitFact,
} from "../schema/facts.ts";
import type { RowIssue } from "../schema/intake.ts";
import type { ColumnPlace, Header } from "./header.ts";
import type { Problem } from "./row-reader.ts";
import { rowIssue } from "./words.ts";

/** Where the rows of a chunk leave what they give. */
export interface FactSink {
  readonly tests: TestFact[];
  readonly units: UnitFact[];
  readonly depots: DepotFact[];
  readonly repairs: RepairFact[];
  readonly meterReadings: MeterFact[];
  readonly checks: CheckFact[];
  readonly judgements: JudgementFact[];
  readonly models: EngineModel[];
  readonly issues: RowIssue[];
}

export const emptySink = (): FactSink => ({
  tests: [],
  units: [],
  depots: [],
  repairs: [],
  meterReadings: [],
  checks: [],
  judgements: [],
  models: [],
  issues: [],
});

/** What the rows of one file have in common. */
export interface RowContext {
  readonly file: string;
  readonly header: Header;
  readonly models: ReadonlyMap<string, EngineModel>;
  readonly today: string | null;
}

/** Takes one record of a file: facts and issues go to the sink. */
export type TakeRow = (record: readonly string[], line: number, sink: FactSink) => void;

/** The problems of a row as issues; true where none refuses it. */
export function report(problems: readonly Problem[], at: { file: string; line: number }, issues: RowIssue[]): boolean {
  let accepted = true;
  for (const { severity, code, column, value, why } of problems) {
    if (severity === "refused") accepted = false;
    issues.push(rowIssue(severity, code, { ...at, column, value }, why));
  }
  return accepted;
}

/** A problem of one cell of the record, with the column as the header spells it. */
export function problemOf(
  cell: {
    readonly record: readonly string[];
    readonly places: ReadonlyMap<string, ColumnPlace>;
    readonly name: string;
  },
  severity: RowIssue["severity"],
  code: string,
  why: string,
): Problem {
  const place = cell.places.get(cell.name);
  const value = place === undefined ? null : (cell.record[place.index] ?? "").trim();
  return { severity, code, column: place?.spelled ?? cell.name, value, why };
}
