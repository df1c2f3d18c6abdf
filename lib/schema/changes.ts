import type { LeakDownLimits } from "./engine-model.ts";
import type { IsoDate } from "./facts.ts";
import type { WindowDates } from "./report.ts";
import type { AssessmentSettings } from "./settings.ts";
import type { Band, CheckKind, JudgedMeasure, Measure, MeterUnit, RepairScope, UnitStatus } from "./words.ts";

/** Where a unit stands, as far as two dates are compared by it. */
export interface Standing {
  readonly asOf: IsoDate;
  /** null: not judged. */
  readonly band: Band | null;
  readonly lastTestDate: IsoDate | null;
  /** Open questions. */
  readonly questions: number;
  /** Of the unit's own tests; a window that its model alone foresees is none. */
  readonly topEnd: WindowDates;
  readonly bottomEnd: WindowDates;
}

/** The dates that two standings are compared on. */
export interface ChangeFrame {
  /** Dates that have gone by count as this one: that "early" is today is no news. */
  readonly asOf: IsoDate;
  /** The last date that forecasts reach; what lies beyond counts as this one. */
  readonly horizonEnd: IsoDate;
}

/**
 * From how many days on a date of a window has moved: more than a tenth of the window, but never less than a week, and
 * always more than a month. Engineering judgement.
 */
export const materialMove = { share: 0.1, leastDays: 7, mostDays: 30 } as const;

/**
 * What an assessment was made from, as far as it explains why the next one differs. What was not kept when it was issued
 * is absent, and is then not compared.
 */
export interface AssessmentBasis {
  readonly perDay: number;
  readonly meterUnit: MeterUnit;
  /** Use of the quarters of a year against its mean; null: alike all year. */
  readonly season?: readonly number[] | null;
  /** Fingerprints of the model's pools. */
  readonly pools: readonly string[];
  /** What ranges were multiplied by, as past forecasts of the model asked; absent: all were told as they come. */
  readonly widths?: Readonly<Partial<Record<JudgedMeasure, number>>>;
  /** The last reading of the meter, from a test, a repair or by itself; null: none. */
  readonly lastRead?: { readonly date: IsoDate; readonly meter: number } | null;
  readonly engineSerial?: string | null;
  readonly status?: UnitStatus;
  /** Of the engine now fitted, ascending by date. */
  readonly tests?: readonly BasisTest[];
  readonly repairs?: readonly BasisRepair[];
  readonly checks?: readonly BasisCheck[];
  readonly limits?: BasisLimits;
  readonly settings?: AssessmentSettings;
}

export interface BasisTest {
  readonly date: IsoDate;
  readonly measure: Measure;
  readonly attempt: number;
  /** false: kept, not used. */
  readonly used: boolean;
  /** What a person made of it, of the whole test or of a cylinder's reading: absent where nobody judged it. */
  readonly judged?: string;
  /** Tells other readings of the same test apart. */
  readonly readings: string;
}

export interface BasisRepair {
  readonly date: IsoDate;
  readonly scope: RepairScope;
  readonly cylinders: readonly number[];
}

export interface BasisCheck {
  readonly date: IsoDate;
  readonly check: CheckKind;
  readonly cylinder: number | null;
}

/** The limits of the engine model. */
export interface BasisLimits {
  readonly minimumKpa: number | null;
  readonly spread: number | null;
  readonly leakDown: LeakDownLimits | null;
  readonly valves: LeakDownLimits | null;
}

/** How the list of changes may be asked for. Every field lives in the page's address. */
export interface ChangesQuery {
  readonly kind: ChangeKind | null;
  readonly direction: "worse" | "better" | null;
  readonly depot: string | null;
  /** From 1. */
  readonly page: number;
  readonly pageSize: number;
}

/** `fleet`: new in it, or gone. `test`: a newer test, whether or not anything moved. */
export const changeKinds = ["band", "window", "question", "fleet", "test"] as const;
export type ChangeKind = (typeof changeKinds)[number];
