import type { EngineModel } from "./engine-model.ts";
import type {
  Cause,
  CheckKind,
  CheckResult,
  Measure,
  MeterUnit,
  Place,
  RepairScope,
  UnitStatus,
  ValueUnit,
  Verdict,
} from "./words.ts";

/**
 * Facts: what files and forms say, checked but as written (values in the unit in which they were read). Everything
 * else that the app shows is derived from these. `null` means "not recorded". `file` and `line` tell where a fact was
 * read, so that every figure can be followed back to a row.
 */

/** A calendar date, `YYYY-MM-DD`, without time of day or time zone. */
export type IsoDate = string;

export interface ReadingFact {
  readonly cylinder: number;
  readonly value: number;
  readonly valueUnit: ValueUnit;
  /** Regulated supply: in `valueUnit` for a held pressure, in kPa with `%`. */
  readonly supply: number | null;
  /** Compression: the gauge after the first stroke, in `valueUnit`. */
  readonly firstStroke: number | null;
  readonly heardAt: readonly Place[];
  /** Place in the order of testing, from 1. */
  readonly order: number | null;
  readonly remarks: string | null;
  readonly line: number;
  /** Only where it was read in another file than the test's `file`. */
  readonly file?: string;
  /** Where a row may hold several readings, until it is stored: the column that it was read from, as the header spells it. */
  readonly column?: string;
  /** `column` is that of a file which is read by a layout. */
  readonly byLayout?: true;
}

/** The conditions of a test, as recorded. */
export interface SetUp {
  readonly orificeMm: number | null;
  readonly warm: boolean | null;
  readonly throttleOpen: boolean | null;
  readonly allPlugsOut: boolean | null;
  readonly tdcConfirmed: boolean | null;
  readonly gaugeZeroed: boolean | null;
  readonly crankingRpm: number | null;
  readonly altitudeM: number | null;
  readonly barometerKpa: number | null;
}

/** One test: one unit, date, measure, attempt and instrument; its readings ascend by cylinder. */
export interface TestFact extends SetUp {
  readonly unit: string;
  readonly date: IsoDate;
  readonly time: string | null;
  readonly meter: number;
  readonly meterUnit: MeterUnit;
  readonly test: Measure;
  readonly attempt: number;
  readonly instrument: string | null;
  readonly depot: string | null;
  readonly engineSerial: string | null;
  readonly engineModel: string | null;
  readonly testedBy: string | null;
  readonly file: string;
  readonly readings: readonly ReadingFact[];
}

export interface UnitFact {
  readonly unit: string;
  readonly engineModel: string | null;
  readonly meterUnit: MeterUnit | null;
  readonly depot: string | null;
  readonly class: string | null;
  readonly inServiceDate: IsoDate | null;
  readonly inServiceMeter: number | null;
  readonly engineSerial: string | null;
  readonly disposalDate: IsoDate | null;
  /** null: not told, so what was told before stays; where nothing was, the unit is in service. */
  readonly status: UnitStatus | null;
  /** Why it has that status. */
  readonly statusReason: string | null;
  readonly file: string;
  readonly line: number;
}

export interface DepotFact {
  readonly depot: string;
  readonly altitudeM: number | null;
  readonly file: string;
  readonly line: number;
}

/** What the strip-down showed in one cylinder; no cause: it was opened and found sound. */
export interface CylinderFinding {
  readonly cylinder: number;
  readonly causes: readonly Cause[];
}

export interface RepairFact {
  readonly unit: string;
  readonly date: IsoDate;
  readonly meter: number;
  readonly scope: RepairScope;
  readonly cylinders: "all" | readonly number[];
  /** In the engine as a whole; those of `findings` are among them. */
  readonly found: readonly Cause[];
  /** By cylinder, ascending, each once; empty: not recorded by cylinder. */
  readonly findings: readonly CylinderFinding[];
  readonly cost: number | null;
  readonly labourHours: number | null;
  readonly downtimeDays: number | null;
  /** At a swap, the engine that came in; otherwise, where given, the engine that was repaired. */
  readonly engineSerial: string | null;
  readonly remarks: string | null;
  readonly file: string;
  readonly line: number;
}

export interface MeterFact {
  readonly unit: string;
  readonly date: IsoDate;
  readonly meter: number;
  readonly meterReset: boolean;
  readonly file: string;
  readonly line: number;
}

export interface CheckFact {
  readonly unit: string;
  readonly date: IsoDate;
  readonly meter: number | null;
  readonly cylinder: number | null;
  readonly check: CheckKind;
  readonly result: CheckResult;
  readonly value: number | null;
  readonly valueUnit: string | null;
  readonly remarks: string | null;
  readonly file: string;
  readonly line: number;
}

/** What a person made of a test, over the app's own doubts. The last one of a test, or of a cylinder's reading, holds. */
export interface JudgementFact {
  readonly unit: string;
  /** Day of the test that is judged; with `test`, `attempt` and `instrument` it names the test. */
  readonly date: IsoDate;
  readonly test: Measure;
  readonly attempt: number;
  readonly instrument: string | null;
  /** null: the whole test. */
  readonly cylinder: number | null;
  readonly verdict: Verdict;
  readonly reason: string;
  readonly judgedBy: string;
  readonly file: string;
  readonly line: number;
}

/** All that is known of a fleet (or of some of its units), in any order. */
export interface FleetFacts {
  readonly models: readonly EngineModel[];
  readonly depots: readonly DepotFact[];
  readonly units: readonly UnitFact[];
  readonly tests: readonly TestFact[];
  readonly repairs: readonly RepairFact[];
  readonly meterReadings: readonly MeterFact[];
  readonly checks: readonly CheckFact[];
  readonly judgements: readonly JudgementFact[];
}
