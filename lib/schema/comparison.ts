import type { IsoDate } from "./facts.ts";
import type { JudgedMeasure, MeterUnit } from "./words.ts";

/**
 * What is kept so that units can be compared: compact rows, made when a unit is assessed, and the comparisons made of
 * them. All in canonical units: kPa or %, the engine's own meter unit, rates for each 1,000 of it, as measured (a falling
 * compression has a negative rate).
 */

/** Engines of one model, measure and meter unit; hours and distances are never pooled. */
export interface Sisterhood {
  readonly engineModel: string;
  readonly measure: JudgedMeasure;
  readonly meterUnit: MeterUnit;
}

/** What began a cylinder's life: the engine new, or a repair; "unknown": how far the engine had run is not on file. */
export const lifeBeginnings = ["new", "top-end", "bottom-end", "unknown"] as const;
export type LifeBeginning = (typeof lifeBeginnings)[number];

/** Beginnings that a meter can be counted from. */
export const origins = ["new", "top-end", "bottom-end"] as const satisfies readonly LifeBeginning[];
export type Origin = (typeof origins)[number];

/** What of an engine stands for it: its weakest cylinder, the middle one, or every cylinder by itself. */
export const figures = ["weakest", "middle", "each"] as const;
export type Figure = (typeof figures)[number];

/** One reading: wear meter of the engine, level (kPa or %), weight from 0 (kept, not used) to 1. */
export type CoursePoint = readonly [x: number, level: number, weight: number];

/** One cylinder from one baseline to the next. */
export interface CourseLife {
  readonly cylinder: number;
  readonly begunBy: LifeBeginning;
  /** The engine's wear meter where the life began. */
  readonly fromX: number;
  /** The engine's last life of this cylinder. */
  readonly current: boolean;
  /** Ascending by x. */
  readonly points: readonly CoursePoint[];
}

export interface CylinderRate {
  readonly cylinder: number;
  readonly level: number | null;
  readonly perThousand: number;
  readonly p10: number;
  readonly p90: number;
}

/** The course of the engine now in a unit, in one measure. */
export interface WearCourse extends Sisterhood {
  readonly unit: string;
  readonly engine: string;
  readonly modelName: string;
  readonly depot: string | null;
  readonly cylinders: number;
  readonly limit: number | null;
  readonly plan: number | null;
  readonly watch: number | null;
  readonly xNow: number;
  readonly lives: readonly CourseLife[];
  /** Of cylinders with tests enough for a range of their own. */
  readonly rates: readonly CylinderRate[];
}

/** One test as a whole, beside the others of its engine. */
export interface TesterTest {
  readonly x: number;
  readonly date: IsoDate;
  readonly instrument: string | null;
  /** Leak-down: the bore that the readings were made with; null: not noted, or compression. */
  readonly orificeMm: number | null;
  readonly depot: string | null;
  readonly testedBy: string | null;
  /** How far the readings stood above the engine's usual: points of leakage, or % of the compression. */
  readonly above: number;
  /** Standard deviation that a test has by repeatability and by referring. */
  readonly sd: number;
}

/** Tests of one engine between which no repair or unexplained step lies. */
export interface TesterCourse {
  readonly unit: string;
  readonly engine: string;
  readonly measure: JudgedMeasure;
  /** What wear is expected to add for each of the meter, and its standard deviation, in the unit of `above`. */
  readonly rate: number;
  readonly rateSd: number;
  /** What the engine's cylinders usually read in it: % or kPa. `above` counts from there. */
  readonly usual: number;
  /** What lies between it and the engine's course before; null: it is the first. */
  readonly begunBy: "repair" | "step" | null;
  /** Ascending by x. */
  readonly tests: readonly TesterTest[];
}

/** Many units whose readings step at one time, with one instrument or at one depot, and no repair on file. */
export interface SharedStep {
  readonly measure: JudgedMeasure;
  readonly of: "instrument" | "depot";
  readonly name: string;
  /** The first test after it. */
  readonly date: IsoDate;
  /** How far, by the mean over engines: points of leakage, or % of the compression; negative: lower since. */
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  /** The same by the middle engine, which engines with a fault of their own do not move; absent: kept before it was told. */
  readonly middle?: number;
  /** Of the mean, with what the pool may know the rate wrong by, which is common to all engines; absent: likewise. */
  readonly standardError?: number;
  /** How far they jump at the date, between lines fitted on each side of it; absent: likewise. */
  readonly jump?: {
    readonly mean: number;
    /** By the middle engine. */
    readonly middle: number;
    readonly standardError: number;
    /** From the last test before to the first after it, as read: lines through wear that speeds up meet too low. */
    readonly raw: number;
    /** Both lines are fitted; else the pool's rate stands in for one with too few tests. */
    readonly fitted: boolean;
  };
  /** Share of the engines that stepped to that side; absent: likewise. */
  readonly alike?: number;
  /** Middle level before and after, % or kPa. */
  readonly from: number;
  readonly to: number;
  readonly engines: number;
  /** Ascending; all that it was seen on. */
  readonly units: readonly string[];
  /** Leak-down: none of the tests since notes the bore of the restrictor. */
  readonly boreNotNoted: boolean;
  /** Instruments used since and not before, where it is of a depot. */
  readonly newInstruments: readonly string[];
}

/**
 * An instrument, or a depot's, that reads off in engine after engine, as the tests of the whole fleet say: kept with the
 * pools, so that each unit's tests made with it are doubted.
 */
export interface InstrumentBias {
  readonly measure: JudgedMeasure;
  readonly of: SharedStep["of"];
  readonly name: string;
  /** Of a depot: only tests made with one of these; null: with any. Of an instrument: null. */
  readonly instruments: readonly string[] | null;
  /** Leak-down: only tests with this bore, null: with none noted; `any`: whatever was noted. */
  readonly orificeMm: number | null | "any";
  /** The first test that it concerns; null: all that it ever made, told beside other instruments. */
  readonly from: IsoDate | null;
  /** The first test from which on it no longer holds; null: it holds still. */
  readonly until: IsoDate | null;
  /** How far it reads above what it should: points of leakage, or % of the compression; negative: below. */
  readonly mean: number;
  readonly engines: number;
  /** That it is off at all, and not by chance. */
  readonly probability: number;
}

export interface UnitCourses {
  readonly wear: readonly WearCourse[];
  readonly testers: readonly TesterCourse[];
}

export interface BandPoint {
  readonly x: number;
  /** Engines that were tested before and after `x`. */
  readonly engines: number;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

/** Quantiles over engines along the meter; a stretch that too few engines cover is left out, and the band is broken there. */
export interface SisterBand {
  readonly origin: Origin;
  readonly figure: Figure;
  /** Engines with a course of this kind at all. */
  readonly engines: number;
  readonly stretches: readonly (readonly BandPoint[])[];
}

export interface Quantiles {
  readonly p10: number;
  readonly p25: number;
  readonly p50: number;
  readonly p75: number;
  readonly p90: number;
}

/** Rates of engines: of the whole model (`depot` undefined), or of those at one depot (null: not recorded). */
export interface RateGroup {
  readonly depot?: string | null;
  readonly engines: number;
  /** null: too few engines. */
  readonly quantiles: Quantiles | null;
  /** Every engine's rate, ascending; empty where there are too many to draw. */
  readonly rates: readonly number[];
}

/** How one unit stands beside its sisters. */
export interface UnitStanding {
  readonly unit: string;
  readonly depot: string | null;
  /** Its fastest cylinder. */
  readonly fastest: CylinderRate;
  /** Of how many sisters, and how many of these decline slower. */
  readonly sisters: number;
  readonly slower: number;
  /** Faster than nine in ten, and more than chance would have it. */
  readonly fast: boolean;
  /** Its last two tests lie beyond the band on the bad side, by the meter since new. */
  readonly beyondBand: boolean;
}

export interface ModelComparison extends ComparedModel {
  readonly limit: number | null;
  readonly plan: number | null;
  readonly watch: number | null;
  readonly cylinders: number;
  readonly bands: readonly SisterBand[];
  /** Those that stand out first, then by speed. */
  readonly standings: readonly UnitStanding[];
}

/** What a list of the sisterhoods tells of each. */
export interface ComparedModel extends Sisterhood {
  readonly modelName: string;
  /** Units with a test in this measure. */
  readonly units: number;
  /** Units that are fast or beyond the band, fastest first. */
  readonly standingOut: readonly string[];
}

/** Rates of one sisterhood, by the engines' fastest and middle cylinders. */
export interface ModelRates extends ComparedModel {
  readonly rates: Readonly<Record<"weakest" | "middle", readonly RateGroup[]>>;
}

export type TesterVerdict = "high" | "low" | "small" | "none" | "too-few";

export interface TesterOffset {
  readonly instrument: string;
  readonly orificeMm: number | null;
  readonly tests: number;
  readonly engines: number;
  /** Engines that it and another instrument were used on between two repairs. */
  readonly shared: number;
  readonly firstUsed: IsoDate;
  readonly lastUsed: IsoDate;
  readonly depots: readonly string[];
  /** Units that tie it to others, with the tests there; only so many as a page lists. */
  readonly units: readonly string[];
  /** Instruments that it is compared with; empty: it stands alone. */
  readonly against: readonly string[];
  /** How far it reads above the mean of those: points of leakage, or % of the compression. null: too few to tell. */
  readonly offset: {
    readonly mean: number;
    readonly standardError: number;
    /** 95 % interval, by itself. */
    readonly low: number;
    readonly high: number;
    /** Two-sided probability under "no difference", adjusted for the number of comparisons. */
    readonly probability: number;
  } | null;
  /**
   * By how much it reads above the one other instrument that most of its engines were read with, for what few engines
   * are worth; null: none of its engines was read with another.
   */
  readonly soFar: { readonly instrument: string; readonly engines: number; readonly mean: number } | null;
  readonly verdict: TesterVerdict;
}

/** All engines that an instrument is used on stepped together, and are too few to call it off: for a person to look at. */
export interface InstrumentHint {
  readonly instrument: string;
  /** The first test after the step. */
  readonly from: IsoDate;
  /** How far: points of leakage, or % of the compression; negative: lower since. */
  readonly mean: number;
  readonly engines: number;
  /** That they stepped at all, and not by chance; the instrument or the engines is not told apart. */
  readonly probability: number;
}

export interface TesterComparison {
  readonly measure: JudgedMeasure;
  readonly testers: readonly TesterOffset[];
  /** Tests that name no instrument. */
  readonly unnamed: number;
  /** A difference of less does not matter: what tests share by common repeatability. */
  readonly matters: number;
  /** Absent: compared before such steps were looked for. */
  readonly steps?: readonly SharedStep[];
  /** Of instruments that are used on too few engines to be called off; absent: likewise. */
  readonly hints?: readonly InstrumentHint[];
}
