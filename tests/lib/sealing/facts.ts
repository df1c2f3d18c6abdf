import type { EngineModel } from "@/lib/schema/engine-model.ts";
import type {
  CheckFact,
  DepotFact,
  FleetFacts,
  JudgementFact,
  MeterFact,
  ReadingFact,
  RepairFact,
  TestFact,
  UnitFact,
} from "@/lib/schema/facts.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import type { EngineHistory, FleetIndex, SealedReading, UnitHistory } from "@/lib/sealing/types.ts";

/** Facts with all that a test of sealing does not care about filled in. */

let line = 1;

export const model = (changes: Partial<EngineModel> = {}): EngineModel => ({
  id: "petrol-4-a",
  cylinders: 4,
  neighbours: [],
  layout: "in-line",
  aircraft: false,
  leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30, orificeMm: 1.016, supplyKpa: 550 },
  ...changes,
});

export const reading = (changes: Partial<ReadingFact> = {}): ReadingFact => ({
  cylinder: 1,
  value: 10,
  valueUnit: "%",
  supply: null,
  firstStroke: null,
  heardAt: [],
  order: null,
  remarks: null,
  line: line++,
  ...changes,
});

export const testFact = (changes: Partial<TestFact> = {}): TestFact => ({
  unit: "V-101",
  date: "2025-01-10",
  time: null,
  meter: 1000,
  meterUnit: "km",
  test: "leak-down",
  attempt: 1,
  instrument: null,
  depot: null,
  engineSerial: null,
  engineModel: null,
  testedBy: null,
  file: "tests.csv",
  orificeMm: null,
  warm: null,
  throttleOpen: null,
  allPlugsOut: null,
  tdcConfirmed: null,
  gaugeZeroed: null,
  crankingRpm: null,
  altitudeM: null,
  barometerKpa: null,
  readings: [reading()],
  ...changes,
});

export const unitFact = (changes: Partial<UnitFact> = {}): UnitFact => ({
  unit: "V-101",
  engineModel: "petrol-4-a",
  meterUnit: "km",
  depot: null,
  class: null,
  inServiceDate: null,
  inServiceMeter: null,
  engineSerial: null,
  disposalDate: null,
  status: "in-service",
  statusReason: null,
  file: "units.csv",
  line: line++,
  ...changes,
});

export const depotFact = (depot: string, altitudeM: number | null): DepotFact => ({
  depot,
  altitudeM,
  file: "depots.csv",
  line: line++,
});

export const repairFact = (changes: Partial<RepairFact> = {}): RepairFact => ({
  unit: "V-101",
  date: "2025-06-01",
  meter: 2000,
  scope: "top-end",
  cylinders: "all",
  found: [],
  findings: [],
  cost: null,
  labourHours: null,
  downtimeDays: null,
  engineSerial: null,
  remarks: null,
  file: "repairs.csv",
  line: line++,
  ...changes,
});

export const meterFact = (changes: Partial<MeterFact> = {}): MeterFact => ({
  unit: "V-101",
  date: "2025-03-01",
  meter: 1500,
  meterReset: false,
  file: "meters.csv",
  line: line++,
  ...changes,
});

export const checkFact = (changes: Partial<CheckFact> = {}): CheckFact => ({
  unit: "V-101",
  date: "2025-03-01",
  meter: null,
  cylinder: null,
  check: "borescope",
  result: "clear",
  value: null,
  valueUnit: null,
  remarks: null,
  file: "checks.csv",
  line: line++,
  ...changes,
});

export const judgementFact = (changes: Partial<JudgementFact> = {}): JudgementFact => ({
  unit: "V-101",
  date: "2025-01-10",
  test: "leak-down",
  attempt: 1,
  instrument: null,
  cylinder: null,
  verdict: "set-aside",
  reason: "gauge found broken",
  judgedBy: "W. Lead",
  file: "judgements.csv",
  line: line++,
  ...changes,
});

export const fleet = (changes: Partial<FleetFacts> = {}): FleetFacts => ({
  models: [model()],
  depots: [],
  units: [],
  tests: [],
  repairs: [],
  meterReadings: [],
  checks: [],
  judgements: [],
  ...changes,
});

export const indexed = (changes: Partial<FleetFacts>, asOf = "2026-06-30"): FleetIndex =>
  indexFleet(fleet(changes), { asOf });

export function unitOf(index: FleetIndex, unit = "V-101"): UnitHistory {
  const found = index.units.find((u) => u.unit === unit);
  if (found === undefined) throw new Error(`unit ${unit} is not in the index`);
  return found;
}

/** The engine now in a unit. */
export const engineOf = (index: FleetIndex, unit = "V-101"): EngineHistory => index.seal(unitOf(index, unit).engine);

/** One leak-down reading through the whole stage, at sea level on the model's usual tester unless told otherwise. */
export function sealedLeakage(changes: Partial<ReadingFact>, test: Partial<TestFact> = {}): SealedReading {
  const tests = [testFact({ altitudeM: 0, ...test, readings: [reading(changes)] })];
  const sealed = engineOf(indexed({ units: [unitFact()], tests })).tests[0]?.readings[0];
  if (sealed === undefined) throw new Error("the reading was left out");
  return sealed;
}
