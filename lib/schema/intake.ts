import type { EngineModel } from "./engine-model.ts";
import type { CheckFact, DepotFact, JudgementFact, MeterFact, RepairFact, TestFact, UnitFact } from "./facts.ts";
import type { CellCorrection, ReadAs } from "./reading.ts";
import type { FileKind } from "./words.ts";

export const proposalKinds = [
  "meter-reset",
  "meter-digits",
  "meter-unit",
  "unit-name",
  "pressure-unit",
  "cylinder-order",
  "instrument",
  "test-date",
] as const;

/** What the rows of an issue may have meant, ready to be taken in one step. */
export interface Proposal {
  readonly kind: (typeof proposalKinds)[number];
  /** What taking it does, for a button: "Read the meter as 4,180". */
  readonly words: string;
  /** In the file of the issue. */
  readonly cells: readonly CellCorrection[];
  /** A reading of a new meter that was never told. */
  readonly reset?: { readonly unit: string; readonly date: string; readonly meter: number };
}

/**
 * What intake tells of a row that it could not take, or took with a warning. `words` is the whole sentence for a
 * person; the other fields let a program sort and find.
 */
export interface RowIssue {
  readonly severity: "refused" | "warning" | "mention";
  readonly code: string;
  readonly file: string;
  /** Line of the file, from 1 (the header is usually line 1); null: the file as a whole. */
  readonly line: number | null;
  /** The column as the header spells it; null: the row as a whole. */
  readonly column: string | null;
  /** The value as written; null: none. */
  readonly value: string | null;
  /** In a list without lines (engine models): the same for all issues of one entry, other for each entry. */
  readonly entry?: string;
  readonly words: string;
  /** What may have been meant, the likeliest first; left out: nothing that is sure enough. */
  readonly proposals?: readonly Proposal[];
}

/**
 * What one chunk of a file gave. `tests` are fragments: a test's rows may be spread over places and chunks of a file,
 * and each fragment carries the readings that came one after the other. A file's last chunk may carry no facts.
 */
export interface IntakeChunk {
  readonly file: string;
  /** What the file is; null as long as its header has not been read, or could not be. */
  readonly kind: FileKind | null;
  /** How it is read; complete once `kind` is known. */
  readonly readAs: ReadAs;
  /** The file is refused as a whole (see `issues`): what its earlier chunks gave must not count either. */
  readonly fileRefused: boolean;
  readonly tests: readonly TestFact[];
  readonly units: readonly UnitFact[];
  readonly depots: readonly DepotFact[];
  readonly repairs: readonly RepairFact[];
  readonly meterReadings: readonly MeterFact[];
  readonly checks: readonly CheckFact[];
  readonly judgements: readonly JudgementFact[];
  readonly models: readonly EngineModel[];
  readonly issues: readonly RowIssue[];
  /** Rows read so far in the file, header not counted. */
  readonly rows: number;
  /** Bytes read so far. */
  readonly bytes: number;
}

/** What intake needs to know of the fleet to judge a row. */
export interface KnownFleet {
  readonly models: ReadonlyMap<string, EngineModel>;
  /** Engine model and meter unit of each known unit. */
  readonly units: ReadonlyMap<
    string,
    { readonly engineModel: string | null; readonly meterUnit: FleetMeterUnit | null }
  >;
  /** Dates after this are refused; null: none is (the stateless `assess`). */
  readonly today: string | null;
}
type FleetMeterUnit = NonNullable<UnitFact["meterUnit"]>;
