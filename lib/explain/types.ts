import type { WeighedCauses } from "../cause/diagnose.ts";
import type { UseForecast } from "../projection/types.ts";
import type { Crossing, MeasureAssessment } from "../schema/assessment.ts";
import type { IsoDate, TestFact } from "../schema/facts.ts";
import type { JudgedMeasure, MeterUnit } from "../schema/words.ts";

export type RepairSide = "topEnd" | "bottomEnd";

/** How wear goes on over use: with a power of the use of about 1, above it, below it. */
export type ShapeKind = "even" | "faster" | "slower";

/** What is believed of the course of one cylinder; all shares together add up to 1. */
export interface BelievedCourse {
  /** Wear alone, with no fault in it; the likeliest first. */
  readonly shapes: readonly { readonly kind: ShapeKind; readonly share: number }[];
  /** Powers of use that wear alone is believed to follow, ascending, and how far the model's engines show each. */
  readonly powers: readonly { readonly power: number; readonly share: number; readonly amongSisters: number }[];
  /** A fault that began between two tests (`after` null: before the first); the likeliest first. */
  readonly faults: readonly {
    readonly share: number;
    readonly after: IsoDate | null;
    readonly by: IsoDate;
    /** The test that shows it: on its page a person confirms or rejects the fault. */
    readonly test: NamedTest;
  }[];
  /** What persons said of it, newest first. */
  readonly rulings: readonly {
    readonly test: NamedTest;
    readonly isFault: boolean;
    readonly by: string;
    readonly reason: string;
  }[];
}

/** An improvement that nobody explained: both pasts stay open, and the date is drawn from either by its share. */
export interface OpenStep {
  /** The first test that reads better. */
  readonly date: IsoDate;
  /** Levels before and after, as measured: % or kPa. */
  readonly from: number;
  readonly to: number;
  /** How far it is believed that something was renewed and not recorded, 0 to 1; the rest: that the tests since mislead. */
  readonly believed: number;
}

/** What tells a test of a unit from its others. */
export type NamedTest = Pick<TestFact, "unit" | "date" | "test" | "attempt" | "instrument">;

/** What one more test would do to a date: told for the day of that test, without it and with it. */
export interface NextTest {
  readonly date: IsoDate;
  readonly without: Crossing;
  /** All cylinders read as foreseen: the middle of their levels on that day. */
  readonly asForeseen: { readonly value: number; readonly crossing: Crossing };
  /** All cylinders read at the better, or the worse, end of the 8 in 10 range of their levels; `value`: the deciding one's. */
  readonly better: { readonly value: number; readonly crossing: Crossing };
  readonly worse: { readonly value: number; readonly crossing: Crossing };
}

/** What one test does to the date: the date as it would be without it. */
export interface TestEffect {
  readonly date: IsoDate;
  readonly unit: string;
  readonly meter: number;
  readonly attempt: number;
  readonly instrument: string | null;
  /** What the deciding cylinder read, made comparable; null: it was not read. */
  readonly value: number | null;
  /** How far that reading is relied on, 0 (kept, not used) to 1. */
  readonly weight: number;
  readonly without: Crossing;
  /** Days by which the date (`moved`) would be later without it, negative: sooner; null: it would have none. */
  readonly laterDays: number | null;
}

/** What of a unit a person wants explained; what is left out is what decides. */
export interface Wanted {
  /** The class of repair. */
  readonly side?: RepairSide | undefined;
  readonly cylinder?: number | undefined;
}

/** Why a unit's date is what it is; all figures as measured, rates for each thousand of the meter unit. */
export interface Explained {
  readonly state: "explained";
  readonly asOf: IsoDate;
  readonly side: RepairSide;
  readonly window: Crossing;
  readonly classProbability: number;
  readonly cylinder: number;
  readonly cylinders: number;
  /** Whether this is the place and the class of repair that decide, or another that was asked for. */
  readonly decides: boolean;
  /** Classes of repair of which a window is foreseen. */
  readonly sides: readonly RepairSide[];
  /** From what is seen in a cylinder to the probabilities of its causes: in the one asked for, else the one explained. */
  readonly causes: WeighedCauses & { readonly cylinder: number };
  readonly measure: JudgedMeasure;
  readonly meterUnit: MeterUnit;
  readonly meterNow: number;
  /** Its level, limit, rate and crossing as told on the unit's page. */
  readonly told: MeasureAssessment & { readonly level: number; readonly limit: number; readonly crossing: Crossing };
  /** The level is between these with 8 chances in 10, as measured; wide where a fault is in doubt. */
  readonly levelRange: { readonly better: number; readonly worse: number } | null;
  readonly usableTests: number;
  readonly use: UseForecast;
  readonly sisters: {
    /** Other engines and all tests that the model's pool was fitted on. */
    readonly engines: number;
    readonly tests: number;
    readonly ratePerThousand: number;
    /** Standard deviation of the rates of engines. */
    readonly rateSdPerThousand: number;
  };
  /** Standard deviations of what a whole test, and of what one reading at the present level, gets wrong; % or kPa. */
  readonly errors: { readonly test: number; readonly reading: number };
  /** Share of what is said of the rate that the engine's own tests said, 0 to 1. */
  readonly ownShare: number;
  readonly course: BelievedCourse;
  /** The step for the better that no repair on file explains, where one of the deciding cylinder is open. */
  readonly openStep: OpenStep | null;
  /** The date that tests are told to move: the likely one, or the early one where that alone lies within the horizon. */
  readonly moved: "p50" | "p10" | null;
  /** Newest first; none where no date is moved. */
  readonly tests: readonly TestEffect[];
  /** Tests of the measure before those. */
  readonly olderTests: number;
  /** null: the limit is met already, or no date lies within the horizon. */
  readonly nextTest: NextTest | null;
}

export type UnitExplanation =
  | { readonly state: "never-tested" }
  /** No cylinder has the tests that a range takes. */
  | { readonly state: "too-few-tests" }
  /** What was tested is not judged: the engine model has no limit for it. */
  | { readonly state: "no-limit"; readonly measures: readonly JudgedMeasure[] }
  | Explained;
