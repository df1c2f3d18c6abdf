import type { Cause, CheckKind, CheckResult, Measure, MeterUnit, Place, RepairScope } from "../lib/schema/words.ts";

/** First and last day of the demo's history. */
export const firstDay = "2023-09-01";
export const asOf = "2026-08-31";

/** The number that the committed files are made from. */
export const demoSeed = 20260831;

export type Depot = "Lowmarsh" | "Midfell" | "Highcol";
export const altitudeM: Readonly<Record<Depot, number>> = { Lowmarsh: 5, Midfell: 620, Highcol: 1850 };

/**
 * A quantity over the unit's use since the first day, told in years of its usual use: 1 is where the unit stands after
 * as much work as it does in a usual year.
 */
export type Course = (years: number) => number;

/** Straight lines through the given points, level beyond both ends. */
export function through(...points: readonly (readonly [years: number, value: number])[]): Course {
  return (years) => {
    const next = points.findIndex(([at]) => at > years);
    const [a, b] = [points[next - 1], points[next]];
    if (next === -1) return points.at(-1)?.[1] ?? 0;
    if (a === undefined || b === undefined) return points[0]?.[1] ?? 0;
    return a[1] + ((years - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
  };
}

/** From one value on the first day to another on the last. */
export const line = (from: number, to: number): Course => through([0, from], [3, to]);

/** A leak beside the rings: what the cylinder shows in all, as % on the model's usual tester, while it is there. */
export interface Fault {
  readonly cylinder: number;
  readonly place: Place;
  readonly leakage: Course;
}

/** What is true of an engine; nobody in the scenario knows it. Index 0 is cylinder 1. */
export interface EngineTruth {
  readonly serial: string;
  /** Leakage past rings and bores, % on the model's usual tester. */
  readonly rings: readonly Course[];
  readonly faults: readonly Fault[];
  /** Compression with leakage as new, as a share of the model's new value. */
  readonly filling: readonly Course[];
}

/** A way in which a test goes wrong: what it does to the readings, and what was written down of it. */
export interface SetUpFault {
  /** Factor on the compression of cylinder c, by its leakage. */
  readonly compression?: (cylinder: number, leakage: number) => number;
  /** What leakage becomes. */
  readonly leakage?: (cylinder: number, leakage: number) => number;
  readonly noted: Readonly<Record<string, string | number>>;
}

/** One visit to the workshop. */
export interface Occasion {
  readonly date: string;
  readonly measures: readonly Measure[];
  /** Where, if not at the unit's depot. */
  readonly depot?: Depot;
  readonly attempt?: number;
  readonly fault?: SetUpFault;
  /** Readings as they stand in the story, by cylinder: % on the tester used, held psi or kPa. */
  readonly fixed?: Partial<Record<Measure, Readonly<Record<number, number>>>>;
  /** Cylinders measured; all where absent. */
  readonly only?: Partial<Record<Measure, readonly number[]>>;
  /** Leak-down tester, where it is not the one that the depot uses for the model. */
  readonly tester?: { readonly orificeMm: number; readonly instrument: string; readonly orificeNoted: boolean };
  readonly remarks?: string;
}

export interface RepairPlan {
  readonly date: string;
  readonly scope: RepairScope;
  readonly cylinders: string;
  readonly found?: readonly Cause[];
  readonly cost?: number;
  readonly labourHours?: number;
  readonly downtimeDays?: number;
  readonly engineSerial?: string;
  readonly remarks?: string;
}

export interface CheckPlan {
  readonly date: string;
  readonly cylinder?: number;
  readonly check: CheckKind;
  readonly result: CheckResult;
  readonly value?: number;
  readonly valueUnit?: string;
  readonly remarks?: string;
}

export interface UnitPlan {
  readonly unit: string;
  readonly model: string;
  readonly class: string;
  readonly depot: Depot;
  readonly meterUnit: MeterUnit;
  /** Use in a usual year. */
  readonly yearly: number;
  /** Meter on the first day. */
  readonly startMeter: number;
  /** Whether use varies from quarter to quarter, or only over the mowing season. */
  readonly use: "steady" | "varied" | "summer";
  /** Ascending; the first has been in since before the first day. */
  readonly engines: readonly { readonly from: string; readonly truth: EngineTruth }[];
  readonly occasions: readonly Occasion[];
  /** Factor on the usual scatter of readings: stories told in figures are kept near them. */
  readonly scatter: number;
  readonly repairs: readonly RepairPlan[];
  readonly checks: readonly CheckPlan[];
  readonly disposalDate?: string;
  /** A new meter: fitted on this day, on which it reads `to`; the old one read `from` in the evening before. */
  readonly newMeter?: { readonly date: string; readonly from: number; readonly to: number; readonly noted: boolean };
}
