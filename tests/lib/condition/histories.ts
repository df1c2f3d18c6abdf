import { addDays } from "@/lib/calendar.ts";
import { conditionEngine } from "@/lib/condition/condition.ts";
import type { ReadingErrors } from "@/lib/condition/reading-errors.ts";
import { type EngineModel, engineModelSchema } from "@/lib/schema/engine-model.ts";
import type { SetUp } from "@/lib/schema/facts.ts";
import type { Measure, MeterUnit, RepairScope } from "@/lib/schema/words.ts";
import type { EngineHistory, EngineRepair, SealedTest } from "@/lib/sealing/types.ts";

/** Made-up engines for the tests of this stage. */

export const petrol4: EngineModel = engineModelSchema.parse({
  id: "petrol-4-a",
  cylinders: 4,
  compression: { newKpa: 1250, minimumKpa: 900, spreadPercent: 25, referenceRpm: 200 },
  leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30 },
});
export const petrolV8: EngineModel = engineModelSchema.parse({ ...petrol4, id: "petrol-v8-a", cylinders: 8 });
export const single: EngineModel = engineModelSchema.parse({
  id: "air-1-a",
  cylinders: 1,
  leakDown: { watchPercent: 15, planPercent: 25, limitPercent: 35 },
});

const setUpNotRecorded: SetUp = {
  orificeMm: null,
  warm: null,
  throttleOpen: null,
  allPlugsOut: null,
  tdcConfirmed: null,
  gaugeZeroed: null,
  crankingRpm: null,
  altitudeM: null,
  barometerKpa: null,
};

export interface TestGiven {
  readonly x: number;
  /** By cylinder from 1; null: not measured. */
  readonly values: readonly (number | null)[];
  readonly measure?: Measure;
  /** Otherwise one day for each 100 km or 2 h of use since 1 January 2024. */
  readonly date?: string;
  readonly attempt?: number;
  readonly repairSameDay?: "before" | "after";
  readonly setUp?: Partial<SetUp>;
  readonly instrument?: string | null;
  readonly depot?: string | null;
  readonly referralSd?: number;
  readonly judgements?: SealedTest["judgements"];
  /** Heard at every cylinder. */
  readonly heardAt?: SealedTest["readings"][number]["heardAt"];
  /** The cylinders were tested in their order, and it was noted. */
  readonly inOrder?: boolean;
  /** By cylinder from 1. */
  readonly firstStrokeShares?: readonly number[];
}

export interface RepairGiven {
  readonly x: number;
  readonly scope: RepairScope;
  readonly cylinders?: readonly number[];
  readonly date?: string;
}

export interface EngineGiven {
  readonly model?: EngineModel;
  readonly meterUnit?: MeterUnit;
  /** Where the engine's wear meter begins. */
  readonly fromX?: number;
  readonly tests?: readonly TestGiven[];
  readonly repairs?: readonly RepairGiven[];
}

export function engineHistory(given: EngineGiven): EngineHistory {
  const { model = petrol4, meterUnit = "km", fromX = 40_000 } = given;
  const dateAt = (x: number) => addDays("2024-01-01", Math.round((x - fromX) / (meterUnit === "h" ? 2 : 100)));
  const all = Array.from({ length: model.cylinders }, (_, i) => i + 1);
  const tests = (given.tests ?? []).map(
    (t): SealedTest => ({
      unit: "V-101",
      depot: t.depot ?? null,
      date: t.date ?? dateAt(t.x),
      measure: t.measure ?? "leak-down",
      attempt: t.attempt ?? 1,
      instrument: t.instrument ?? null,
      testedBy: null,
      x: t.x,
      meter: t.x,
      ...(t.repairSameDay === undefined ? {} : { repairSameDay: t.repairSameDay }),
      ...(t.judgements === undefined ? {} : { judgements: t.judgements }),
      setUp: { ...setUpNotRecorded, ...t.setUp },
      referral: [],
      readings: t.values.flatMap((value, i) =>
        value === null
          ? []
          : [
              {
                cylinder: i + 1,
                value,
                referralSd: t.referralSd ?? 0,
                roundingSd: 0,
                leakAreaMm2: null,
                firstStrokeShare: t.firstStrokeShares?.[i] ?? null,
                heardAt: t.heardAt ?? [],
                order: t.inOrder ? i + 1 : null,
                enteredValue: value,
                enteredUnit: t.measure === undefined || t.measure === "leak-down" ? "%" : "kPa",
                enteredSupply: null,
                remarks: null,
                line: i + 2,
              },
            ],
      ),
      file: "made.csv",
    }),
  );
  const repairs = (given.repairs ?? []).map(
    (r): EngineRepair => ({
      unit: "V-101",
      date: r.date ?? dateAt(r.x),
      x: r.x,
      meter: r.x,
      scope: r.scope,
      cylinders: r.cylinders ?? all,
      found: [],
      findings: [],
      cost: null,
      labourHours: null,
      downtimeDays: null,
      remarks: null,
    }),
  );
  return {
    engine: "V-101 #1",
    serial: null,
    model,
    meterUnit,
    fittings: [{ unit: "V-101", fromDate: null, toDate: null, fromX, toX: null }],
    tests: tests.toSorted(
      (a, b) =>
        a.x - b.x || a.date.localeCompare(b.date) || a.measure.localeCompare(b.measure) || a.attempt - b.attempt,
    ),
    repairs: repairs.toSorted((a, b) => a.x - b.x || a.date.localeCompare(b.date)),
    checks: [],
  };
}

export const conditioned = (given: EngineGiven, errors?: ReadingErrors) =>
  conditionEngine(engineHistory(given), errors);

/** Tests every 10,000 km from 50,000 km on, with these values. */
export const every10000 = (
  rows: readonly (readonly (number | null)[])[],
  common: Partial<TestGiven> = {},
): TestGiven[] => rows.map((values, i) => ({ x: 50_000 + 10_000 * i, values, ...common }));
