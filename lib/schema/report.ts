import type { Crossing, UnitAssessment } from "./assessment.ts";
import type { AssessmentBasis } from "./changes.ts";
import type { EngineModel } from "./engine-model.ts";
import type { IsoDate, SetUp } from "./facts.ts";
import type {
  Band,
  Cause,
  CheckKind,
  CheckResult,
  CrossingStatus,
  JudgedMeasure,
  Measure,
  MeterUnit,
  Place,
  RepairScope,
  UnitStatus,
  ValueUnit,
} from "./words.ts";

/**
 * Counts up whenever a report, or what is kept beside it, gains, loses or changes a field: what an older program kept is
 * then made again at the next start.
 */
export const reportFormat = 21;

/**
 * What is kept for one unit when it is assessed: the contract's assessment, and what its page draws and says. Pages
 * read this and compute nothing. `x` is the wear meter of the engine now fitted (see lib/sealing/types.ts).
 */
export interface UnitReport {
  readonly asOf: IsoDate;
  readonly assessment: UnitAssessment;
  /** What the assessment was made from. */
  readonly basis: AssessmentBasis;
  /**
   * The windows that the model's sister engines alone foresee for a unit whose own tests give none: status
   * `too-few-tests`, with dates. It counts for no band and nothing is due by it. A class of repair that the tests do
   * foresee has no dates here; null: nothing to tell.
   */
  readonly fromModel: { readonly topEnd: WindowDates; readonly bottomEnd: WindowDates } | null;
  readonly depot: string | null;
  readonly unitClass: string | null;
  readonly status: "in-service" | "stopped" | "retired";
  readonly model: EngineModel;
  /** The finding as one to three sentences. */
  readonly finding: string;
  /** What to do next, in order, the cheapest that settles most first; `caution` where something may hurt. */
  readonly next: readonly {
    readonly title: string;
    readonly detail: string;
    readonly caution: string | null;
    /** Of a step that is expected to settle something. */
    readonly gain?: StepGain;
  }[];
  /** Both classes of repair together, and why; null: not advised, or nothing to go by. */
  readonly together: string | null;
  /** How sure, and on what it is based, in one or two sentences. */
  readonly howSure: string;
  /** The weakest place and why, for a row of the Fleet table: two short lines. */
  readonly place: { readonly title: string; readonly detail: string };
  /** The test interval has passed since the last test. */
  readonly testOverdue: boolean;
  readonly nextTestDue: IsoDate | null;
  /** True where `x` is what the unit's meter reads, so the axis may be called the meter. */
  readonly axisIsMeter: boolean;
  /** `x` at the as-of date. */
  readonly xNow: number;
  /** Dates along the axis, ascending in x: known readings, then forecasts by the unit's use. */
  readonly datesOnAxis: readonly { readonly x: number; readonly date: IsoDate }[];
  readonly charts: readonly MeasureChart[];
  /** Ascending by cylinder. */
  readonly earlyWarnings: readonly WarningLine[];
  /** Tests with a reading that the program doubts by its set-up or by its figures, and no person has judged. */
  readonly doubtfulTests: number;
  readonly tests: readonly TestLine[];
  readonly repairs: readonly RepairMark[];
  /** Other evidence, newest first. */
  readonly checks: readonly CheckLine[];
  /** What would settle each cylinder's causes, the most for its hours first; a cylinder with nothing to settle is left out. */
  readonly settles: readonly CylinderSettling[];
  readonly use: UseCourse;
  /** Probability that the unit is past a limit, by month from the as-of date, for each class of repair. */
  readonly pastLimit: readonly { readonly date: IsoDate; readonly topEnd: number; readonly bottomEnd: number }[];
  /** The same by what sister engines do, where its own tests are too few; empty: they are not, or sisters say nothing. */
  readonly pastLimitOfModel: UnitReport["pastLimit"];
  /** Days of use, at the use of today, since the parts were renewed that each class of repair renews. */
  readonly ageDays: { readonly topEnd: number; readonly bottomEnd: number };
}

/** A cylinder that left its family (lib/condition/early-warning.ts). */
export interface WarningLine {
  readonly measure: JudgedMeasure;
  readonly cylinder: number;
  /** The first test at which it left. */
  readonly date: IsoDate;
  readonly meter: number;
  readonly x: number;
  /** Then, and by the mean since: points of leakage, or % of the compression expected; above 0: worse. */
  readonly amount: number;
  readonly amountSince: number;
  /** Of one reading, in the same unit. */
  readonly sd: number;
  /** Of the evidence summed up then, and its limit. */
  readonly statistic: number;
  readonly limit: number;
  readonly heardAt: readonly Place[];
  /** False warnings in 100 cylinder-years, as chosen. */
  readonly falseAlarms: number;
}

export interface MeasureChart {
  readonly measure: JudgedMeasure;
  readonly unit: "kPa" | "%";
  /** Horizontal lines; null where the model has none. For leak-down `limit` is the usual one (not that by place). */
  readonly limit: number | null;
  readonly plan: number | null;
  readonly watch: number | null;
  readonly cylinders: readonly CylinderSeries[];
}

export interface CylinderSeries {
  readonly cylinder: number;
  readonly band: Band | null;
  /** The limit in force for this cylinder (tighter where a valve is at fault). */
  readonly limit: number | null;
  readonly level: number | null;
  readonly points: readonly ChartPoint[];
  /** Quantiles of the level ahead, for the fan, at ascending x from `xNow`; empty with too few tests. */
  readonly fan: readonly {
    readonly x: number;
    readonly p10: number;
    readonly p25: number;
    readonly p50: number;
    readonly p75: number;
    readonly p90: number;
  }[];
  readonly crossing: Crossing | null;
  /** `crossing.meter` on the axis. */
  readonly crossingX: { readonly p10: number | null; readonly p50: number | null; readonly p90: number | null } | null;
}

export interface ChartPoint {
  readonly x: number;
  readonly date: IsoDate;
  /** Referred value, kPa or %. */
  readonly value: number;
  /**
   * As it was entered, in kPa or %: not referred to sea level or to the usual tester. null: held pressure without a
   * supply, which tells no share.
   */
  readonly entered: number | null;
  /** Standard deviation of the reading: repeatability and referral together. */
  readonly sd: number;
  /** 0 (kept, not used) to 1. */
  readonly weight: number;
  /** Counts up at each repair that starts a new life or baseline; a line is broken there. */
  readonly life: number;
  /** Why it is trusted less, in words; null: it is not. */
  readonly doubt: string | null;
}

/** A row of the Unit page's table of tests: what was entered, and what it was made into. */
export interface TestLine {
  readonly date: IsoDate;
  readonly unit: string;
  readonly meter: number;
  readonly x: number;
  readonly measure: Measure;
  readonly attempt: number;
  readonly depot: string | null;
  readonly setUp: SetUp;
  readonly instrument: string | null;
  readonly testedBy: string | null;
  readonly entered: readonly {
    readonly cylinder: number;
    readonly value: number;
    readonly valueUnit: ValueUnit;
    readonly supply: number | null;
    readonly referred: number;
    readonly weight: number;
    readonly heardAt: readonly Place[];
    /** Place in the order of testing, from 1. */
    readonly order: number | null;
    readonly remarks: string | null;
  }[];
  /** What was done to make the readings comparable; empty: as entered. */
  readonly referral: readonly string[];
  readonly doubts: readonly string[];
  readonly file: string;
  readonly line: number;
}

export interface RepairMark {
  /** The unit that the engine was in. */
  readonly unit: string;
  readonly date: IsoDate;
  readonly x: number;
  readonly meter: number;
  readonly scope: RepairScope | "assumed";
  readonly cylinders: readonly number[];
  /** In words: "top-end repair, cylinder 4; found: exhaust valve". */
  readonly words: string;
  readonly cost: number | null;
  readonly labourHours: number | null;
  readonly downtimeDays: number | null;
}

/** A check beside the tests: borescope, clearance, combustion gas … */
export interface CheckLine {
  readonly date: IsoDate;
  readonly unit: string;
  /** null: of the whole engine. */
  readonly cylinder: number | null;
  readonly check: CheckKind;
  readonly result: CheckResult;
  readonly value: number | null;
  readonly valueUnit: string | null;
  readonly remarks: string | null;
}

export interface CylinderSettling {
  readonly cylinder: number;
  readonly steps: readonly {
    readonly title: string;
    /** Causes that its outcome speaks for or against. */
    readonly causes: readonly Cause[];
    /** Share of what is open that it is expected to settle, 0 to 1; in words with its hours. */
    readonly share: number;
    readonly words: string;
    readonly gain: StepGain;
  }[];
}

/** What a test is expected to settle of a cylinder's causes, and what that is made of; information in bits. */
export interface StepGain {
  /** Of what is open, 0 to 1: `counts` times all that is told over all that is open. */
  readonly share: number;
  /** Working hours, and what they go for. */
  readonly hours: number;
  readonly effort: string;
  /** What is open of the cause, and what of it a result is expected to tell; the same of the class of repair. */
  readonly cause: { readonly open: number; readonly told: number };
  readonly repairClass: { readonly open: number; readonly told: number };
  /** 1; less where the same was asked before. */
  readonly counts: number;
  /** How it may come out, the likeliest first, and what would then still be open of cause and class together. */
  readonly results: readonly { readonly seen: string; readonly chance: number; readonly left: number }[];
  /** Results too unlikely to be listed. */
  readonly rarer: number;
}

/** How hard the unit worked, and is taken to work on. In the unit's meter unit, over new meters. */
export interface UseCourse {
  /** Between known readings, ascending and without gaps. */
  readonly spans: readonly { readonly from: IsoDate; readonly to: IsoDate; readonly used: number }[];
  /** A new meter was fitted: what the old one read last, and what the new one read first. */
  readonly resets: readonly { readonly date: IsoDate; readonly before: number; readonly after: number }[];
  /** Use a day that the forecast takes; null: the unit is out of service. */
  readonly ahead: { readonly p10: number; readonly p50: number; readonly p90: number } | null;
  /** Use of the quarters of a year against its mean, from January on; null or absent: alike all year. */
  readonly season?: readonly [number, number, number, number] | null;
  /** The forecast leans on the model's other units alone: this one has too few readings. */
  readonly aheadIsPooled: boolean;
  /** What the forecast makes of the unit's use beyond its mean (a change of duty, standing, a season), in sentences. */
  readonly notes: readonly string[];
}

/** How the Fleet table may be asked for. Every field lives in the page's address. */
export interface FleetQuery {
  /** Finds text in unit, engine serial, depot, model, place; case-insensitive. */
  readonly search: string;
  readonly band: Band | "never-tested" | "overdue" | "question" | null;
  readonly depot: string | null;
  readonly model: string | null;
  /** Groups stand in the order of their names, bands by urgency; `sort` orders the units within each. */
  readonly group: FleetGrouping | null;
  readonly sort:
    | "due"
    | "unit"
    | "band"
    | "last-test"
    | "use"
    | "depot"
    | "model"
    | "class"
    | "next-test"
    | "top-chance"
    | "bottom-chance";
  readonly descending: boolean;
  /** From 1. */
  readonly page: number;
  readonly pageSize: number;
}

export type FleetGrouping = "depot" | "model" | "band";

/** What a planner looks at a part of the fleet by; the band is counted within it. */
export type FleetPart = Pick<FleetQuery, "search" | "depot" | "model">;

/** A group of the Fleet table, of all pages together. */
export interface FleetGroup {
  /** Depot, id of the engine model, or band; null: no depot on file, never tested. */
  readonly key: string | null;
  /** The model's name; else the key. */
  readonly name: string | null;
  readonly units: number;
  readonly pastLimit: number;
  /** Units of any band whose repair is likely (P50) within the planning lead time; those past a limit not counted. */
  readonly soon: number;
}

export interface FleetRow {
  readonly unit: string;
  readonly engineModel: string;
  readonly modelName: string;
  readonly layout: "in-line" | "v" | "opposed";
  readonly depot: string | null;
  readonly band: Band | null;
  /** One for each cylinder, ascending. */
  readonly cylinderBands: readonly (Band | null)[];
  readonly placeTitle: string;
  readonly placeDetail: string;
  readonly lastTestDate: IsoDate | null;
  readonly testOverdue: boolean;
  readonly questions: number;
  readonly perDay: number;
  readonly meterUnit: MeterUnit;
  /** What the unit's meter reads at the as-of date. */
  readonly meter: number;
  readonly unitClass: string | null;
  readonly status: UnitStatus;
  readonly engineSerial: string | null;
  readonly nextTestDue: IsoDate | null;
  readonly topEnd: WindowDates;
  readonly bottomEnd: WindowDates;
  /** Probability that the limit is met within a year; null: not told. */
  readonly topEndChance: number | null;
  readonly bottomEndChance: number | null;
}

export interface WindowDates {
  readonly status: CrossingStatus;
  readonly p10: IsoDate | null;
  readonly p50: IsoDate | null;
  readonly p90: IsoDate | null;
  /** The planned disposal, where it comes before the likely date; told of the Fleet's windows. */
  readonly soldOn?: IsoDate;
}

export interface FleetCounts {
  readonly all: number;
  readonly byBand: Readonly<Record<Band, number>>;
  /** Of those at plan: a repair is likely (P50) within the planning lead time. */
  readonly planSoon: number;
  readonly neverTested: number;
  /** Tested, but longer ago than the test interval. */
  readonly overdue: number;
  readonly questions: number;
}
