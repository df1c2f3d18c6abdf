import type { EngineModel } from "../schema/engine-model.ts";
import type { CylinderFinding, IsoDate, SetUp } from "../schema/facts.ts";
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
} from "../schema/words.ts";

/**
 * What sealing hands on: readings made comparable (one altitude, one tester, one meter) and put in the order of an
 * engine's own life. `x` is always the engine's own wear meter: continuous over meter resets and over the units that
 * the engine was fitted to, in `meterUnit`. For an engine that never left its unit and whose meter was never replaced,
 * `x` equals what the unit's meter reads.
 */

/** A reading referred to the atmosphere's sea level (kPa, compression) or the model's usual tester (%, leak-down). */
export interface SealedReading {
  readonly cylinder: number;
  /** kPa gauge at sea level, or % leakage on the model's usual tester. */
  readonly value: number;
  /** Standard deviation that referring added (conversion between testers, unknown altitude), in the unit of `value`. */
  readonly referralSd: number;
  /** Standard deviation of what rounding added, by how finely the instrument is read (rounding.ts), in the unit of `value`. */
  readonly roundingSd: number;
  /** Leak-down: equivalent leak area, mm2 (discharge coefficient as the restrictor's); null for compression. */
  readonly leakAreaMm2: number | null;
  /** Compression: first stroke as a share of the final value. */
  readonly firstStrokeShare: number | null;
  readonly heardAt: readonly Place[];
  readonly order: number | null;
  readonly enteredValue: number;
  readonly enteredUnit: ValueUnit;
  readonly enteredSupply: number | null;
  readonly remarks: string | null;
  readonly line: number;
}

/** What a person made of a test or of one cylinder's reading of it. */
export interface TestJudgement {
  /** null: the whole test. */
  readonly cylinder: number | null;
  readonly verdict: Exclude<Verdict, "none" | "withdrawn">;
  readonly reason: string;
  readonly by: string;
}

export interface SealedTest {
  readonly unit: string;
  readonly depot: string | null;
  readonly date: IsoDate;
  readonly measure: Measure;
  readonly attempt: number;
  readonly instrument: string | null;
  readonly testedBy: string | null;
  /** The engine's wear meter at the test. */
  readonly x: number;
  /** What the unit's meter read. */
  readonly meter: number;
  /** Only where the engine was repaired on the same day at the same `x`: on which side of the repair it is taken. */
  readonly repairSameDay?: "before" | "after";
  readonly setUp: SetUp;
  /** What was done to make the readings comparable, in words ("referred from 1,850 m to sea level"); empty: nothing. */
  readonly referral: readonly string[];
  /** Ascending by cylinder. */
  readonly readings: readonly SealedReading[];
  /** Only where a person judged it; that of the whole test first, then ascending by cylinder. */
  readonly judgements?: readonly TestJudgement[];
  readonly file: string;
}

/**
 * A repair of an engine. It comes before a test if its `x` is lower, or the same and its date earlier; at the same `x` on
 * the same day the test's `repairSameDay` decides. Scope `engine-swap` marks where the engine
 * came in and is no new life in itself (an engine that was not known before has a history of its own).
 */
export interface EngineRepair {
  readonly unit: string;
  readonly date: IsoDate;
  readonly x: number;
  readonly meter: number;
  readonly scope: RepairScope;
  /** All cylinders of the engine, or those named; ascending. */
  readonly cylinders: readonly number[];
  readonly found: readonly Cause[];
  /** The same by cylinder, where it was recorded so. */
  readonly findings: readonly CylinderFinding[];
  readonly cost: number | null;
  readonly labourHours: number | null;
  readonly downtimeDays: number | null;
  readonly remarks: string | null;
}

export interface EngineCheck {
  readonly unit: string;
  readonly date: IsoDate;
  readonly x: number | null;
  readonly cylinder: number | null;
  readonly check: CheckKind;
  readonly result: CheckResult;
  readonly value: number | null;
  readonly valueUnit: string | null;
  readonly remarks: string | null;
}

/** One engine in one unit, from a date and meter to another (null: still fitted). */
export interface Fitting {
  readonly unit: string;
  readonly fromDate: IsoDate | null;
  readonly toDate: IsoDate | null;
  readonly fromX: number;
  readonly toX: number | null;
}

export interface EngineHistory {
  /** Serial number, or a made-up key: `V-101 #1` where none is known, `4711 (V-101)` or `4711 (km)` where two clash. */
  readonly engine: string;
  readonly serial: string | null;
  readonly model: EngineModel;
  readonly meterUnit: MeterUnit;
  /** Ascending by date. */
  readonly fittings: readonly Fitting[];
  /** Ascending by x, then date, those before the day's repair first, then measure, attempt, instrument. */
  readonly tests: readonly SealedTest[];
  /** Ascending by x, then date. */
  readonly repairs: readonly EngineRepair[];
  readonly checks: readonly EngineCheck[];
}

/** A reading of a unit's meter, made continuous over meter resets. */
export interface MeterPoint {
  readonly date: IsoDate;
  /** What the meter showed. */
  readonly meter: number;
  /** Use of the unit since its first meter, continuous over resets: `meter + offset`. */
  readonly cumulative: number;
}

export interface UnitHistory {
  readonly unit: string;
  readonly model: EngineModel;
  readonly meterUnit: MeterUnit;
  readonly depot: string | null;
  readonly class: string | null;
  readonly status: UnitStatus;
  readonly disposalDate: IsoDate | null;
  /** The engine fitted at the as-of date; a key into the engines. */
  readonly engine: string;
  /** Ascending by date; at most one a date. Empty: no reading of the meter is known. */
  readonly meterPoints: readonly MeterPoint[];
  /** What to add to the meter now fitted to get `cumulative`. */
  readonly offset: number;
  /** What to add to `cumulative` to get `x` of the engine now fitted. */
  readonly engineOffset: number;
  /** Doubts about the history, in words (serial number changed without a repair row …). */
  readonly warnings: readonly string[];
}

/** A fleet laid out by units and engines; the readings of an engine are made comparable only when they are asked for. */
export interface FleetIndex {
  /** Ascending by unit; every known unit that has an engine model. */
  readonly units: readonly UnitHistory[];
  /** Ascending; those of engines that are in no unit now are among them. */
  readonly engineKeys: readonly string[];
  /** Those of them of which a repair tells what the strip-down showed. */
  readonly opened: ReadonlySet<string>;
  /** Units left out, and why, in words. */
  readonly problems: readonly string[];
  /** Throws a RangeError for a key that is not in `engineKeys`. Nothing is kept: each call seals anew. */
  readonly seal: (engine: string) => EngineHistory;
}
