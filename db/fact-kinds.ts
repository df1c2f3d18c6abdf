import type { EngineModel } from "../lib/schema/engine-model.ts";
import type {
  CheckFact,
  DepotFact,
  JudgementFact,
  MeterFact,
  RepairFact,
  TestFact,
  UnitFact,
} from "../lib/schema/facts.ts";
import type { Schema } from "./schema.ts";

/** What names a test, and what else is told of it as a whole (its readings are kept apart). */
export const testKeyColumns = ["unit", "date", "test", "attempt", "instrument"] as const;
export const testColumns = [
  "time",
  "meter",
  "meterUnit",
  "depot",
  "engineSerial",
  "engineModel",
  "testedBy",
  "orificeMm",
  "warm",
  "throttleOpen",
  "allPlugsOut",
  "tdcConfirmed",
  "gaugeZeroed",
  "crankingRpm",
  "altitudeM",
  "barometerKpa",
] as const satisfies readonly (keyof TestFact)[];

/** The facts of one line: how they are told apart, and which columns tell what. */
export interface FactKind {
  readonly table:
    | "unitFacts"
    | "depotFacts"
    | "repairs"
    | "meterReadings"
    | "checks"
    | "judgements"
    | "engineModelVersions";
  /** Whom it tells of; part of the key. */
  readonly subject: "unit" | "depot" | "engineModel";
  /** Facts that agree in these tell of the same thing. */
  readonly key: readonly string[];
  readonly content: readonly string[];
}

export const factKinds = {
  units: {
    table: "unitFacts",
    subject: "unit",
    key: ["unit"],
    content: [
      "engineModel",
      "meterUnit",
      "depot",
      "class",
      "inServiceDate",
      "inServiceMeter",
      "engineSerial",
      "disposalDate",
      "status",
      "statusReason",
    ],
  },
  depots: { table: "depotFacts", subject: "depot", key: ["depot"], content: ["altitudeM"] },
  repairs: {
    table: "repairs",
    subject: "unit",
    key: ["unit", "date", "scope", "cylinders"],
    content: ["meter", "found", "findings", "cost", "labourHours", "downtimeDays", "engineSerial", "remarks"],
  },
  meterReadings: { table: "meterReadings", subject: "unit", key: ["unit", "date", "meterReset"], content: ["meter"] },
  // The remarks tell what was looked at (a cause, a valve), so two remarks are two pieces of evidence.
  checks: {
    table: "checks",
    subject: "unit",
    key: ["unit", "date", "check", "cylinder", "remarks"],
    content: ["meter", "result", "value", "valueUnit"],
  },
  judgements: {
    table: "judgements",
    subject: "unit",
    key: ["unit", "date", "test", "attempt", "instrument", "cylinder"],
    content: ["verdict", "reason", "judgedBy"],
  },
  models: { table: "engineModelVersions", subject: "engineModel", key: ["engineModel"], content: ["model"] },
} as const satisfies Record<string, FactKind>;

export type FactKindName = keyof typeof factKinds;

/** A model as the other facts are: with the file and line that it came from. */
export interface ModelFact {
  readonly engineModel: string;
  readonly model: EngineModel;
  readonly file: string;
  readonly line: number;
}

export interface FactOf {
  readonly units: UnitFact;
  readonly depots: DepotFact;
  readonly repairs: RepairFact;
  readonly meterReadings: MeterFact;
  readonly checks: CheckFact;
  readonly judgements: JudgementFact;
  readonly models: ModelFact;
}

/** A row of any of the tables above: what all have, and the kind's own columns by name. */
export type FactRow = Pick<
  Schema["depotFacts"]["$inferSelect"],
  "id" | "importId" | "factKey" | "standing" | "supersedesId" | "fileNo" | "line"
> &
  Readonly<Record<string, unknown>>;

export const factColumns = ["id", "importId", "factKey", "standing", "fileNo", "line"] as const;

/** One text for each thing that a fact may tell of. Ordered by unit first, as JSON text is. */
export const keyOf = (row: object, columns: readonly string[]): string =>
  JSON.stringify(columns.map((column) => (row as Record<string, unknown>)[column] ?? null));

export const isBlank = (value: unknown): boolean =>
  value === null || value === undefined || (Array.isArray(value) && value.length === 0);

/** For each column what the first row says that does not leave it blank. */
export function layered(rows: readonly Readonly<Record<string, unknown>>[], columns: readonly string[]) {
  const out: Record<string, unknown> = {};
  for (const column of columns) {
    out[column] = rows[0]?.[column] ?? null;
    for (const row of rows) {
      if (isBlank(row[column])) continue;
      out[column] = row[column];
      break;
    }
  }
  return out;
}
