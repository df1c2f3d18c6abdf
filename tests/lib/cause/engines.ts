import type { ConditionedEngine, ConditionedTest, Doubt } from "@/lib/condition/types.ts";
import { type EngineModel, engineModelSchema } from "@/lib/schema/engine-model.ts";
import type { Measure, Place } from "@/lib/schema/words.ts";
import type { EngineCheck, EngineRepair, SealedReading } from "@/lib/sealing/types.ts";

/** Builders of conditioned engines, so that each test states only what matters to it. */

export const asOf = "2026-06-30";

export const petrol4: EngineModel = engineModelSchema.parse({
  id: "petrol-4-a",
  fuel: "petrol",
  cylinders: 4,
  neighbours: [
    [1, 2],
    [2, 3],
    [3, 4],
  ],
  compression: { newKpa: 1250, minimumKpa: 900, spreadPercent: 25, referenceRpm: 200 },
  leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30 },
});

export interface ReadingGiven {
  readonly value: number;
  readonly heardAt?: readonly Place[];
  readonly firstStrokeShare?: number;
  readonly weight?: number;
}

export interface TestGiven {
  readonly measure: Measure;
  readonly date: string;
  readonly x: number;
  /** One for each cylinder; null: not measured. */
  readonly readings: readonly (number | ReadingGiven | null)[];
  /** Heard at every cylinder that does not say otherwise. */
  readonly heardAt?: readonly Place[];
  readonly doubts?: readonly Doubt[];
  readonly weight?: number;
}

function conditionedTest(given: TestGiven): ConditionedTest {
  const readings: SealedReading[] = [];
  const weights: number[] = [];
  given.readings.forEach((entry, index) => {
    if (entry === null) return;
    const reading: ReadingGiven = typeof entry === "number" ? { value: entry } : entry;
    readings.push({
      cylinder: index + 1,
      value: reading.value,
      referralSd: 0,
      roundingSd: 0,
      leakAreaMm2: null,
      firstStrokeShare: reading.firstStrokeShare ?? null,
      heardAt: reading.heardAt ?? given.heardAt ?? [],
      order: null,
      enteredValue: reading.value,
      enteredUnit: given.measure === "leak-down" ? "%" : "kPa",
      enteredSupply: null,
      remarks: null,
      line: index + 2,
    });
    weights.push((reading.weight ?? 1) * (given.weight ?? 1));
  });
  return {
    test: {
      unit: "V-1",
      depot: null,
      date: given.date,
      measure: given.measure,
      attempt: 1,
      instrument: null,
      testedBy: null,
      x: given.x,
      meter: given.x,
      setUp: {
        orificeMm: null,
        warm: null,
        throttleOpen: null,
        allPlugsOut: null,
        tdcConfirmed: null,
        gaugeZeroed: null,
        crankingRpm: null,
        altitudeM: null,
        barometerKpa: null,
      },
      referral: [],
      readings,
      file: "tests.csv",
    },
    doubts: given.doubts ?? [],
    weights,
  };
}

export interface EngineGiven {
  readonly model?: EngineModel;
  readonly tests?: readonly TestGiven[];
  readonly repairs?: readonly (Pick<EngineRepair, "date" | "x" | "scope" | "cylinders"> & Partial<EngineRepair>)[];
  readonly checks?: readonly (Pick<EngineCheck, "date" | "check" | "result"> & Partial<EngineCheck>)[];
  readonly improvements?: ConditionedEngine["improvements"];
  readonly contradictions?: ConditionedEngine["contradictions"];
}

export function engine(given: EngineGiven): ConditionedEngine {
  const tests = (given.tests ?? []).map(conditionedTest);
  return {
    history: {
      engine: "V-1 #1",
      serial: null,
      model: given.model ?? petrol4,
      meterUnit: "km",
      fittings: [{ unit: "V-1", fromDate: null, toDate: null, fromX: 0, toX: null }],
      tests: tests.map(({ test }) => test),
      repairs: (given.repairs ?? []).map((repair) => ({
        unit: "V-1",
        meter: repair.x,
        found: [],
        findings: [],
        cost: null,
        labourHours: null,
        downtimeDays: null,
        remarks: null,
        ...repair,
      })),
      checks: (given.checks ?? []).map((check) => ({
        unit: "V-1",
        x: null,
        cylinder: null,
        value: null,
        valueUnit: null,
        remarks: null,
        ...check,
      })),
    },
    tests,
    improvements: given.improvements ?? [],
    contradictions: given.contradictions ?? [],
  };
}

const days = ["2023-09-04", "2024-03-11", "2024-09-09", "2025-03-17", "2025-09-15", "2026-03-16"] as const;

/** Leak-down tests half a year and 15,000 km apart, the last in March 2026. */
export const leakDowns = (
  rows: readonly TestGiven["readings"][],
  heardAt: readonly Place[] = [],
): readonly TestGiven[] => series("leak-down", rows, heardAt);

export const compressions = (rows: readonly TestGiven["readings"][]): readonly TestGiven[] =>
  series("compression-dry", rows, []);

function series(measure: Measure, rows: readonly TestGiven["readings"][], heardAt: readonly Place[]): TestGiven[] {
  return rows.map((readings, index) => {
    const place = days.length - rows.length + index;
    const date = days[place];
    if (date === undefined) throw new Error("six tests at most");
    return { measure, date, x: 100_000 + 15_000 * place, readings, heardAt };
  });
}
