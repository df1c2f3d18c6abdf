import { seededRandom } from "@/demo-data/random.ts";
import { addDays } from "@/lib/calendar.ts";
import { engineModelSchema } from "@/lib/schema/engine-model.ts";
import type { FleetFacts, ReadingFact, RepairFact, TestFact } from "@/lib/schema/facts.ts";
import { settingsSchema } from "@/lib/schema/settings.ts";
import { backTestOf } from "@/lib/track/back-test.ts";

/** Leak-down tests of a made-up fleet whose truth is known. */

const model = engineModelSchema.parse({
  id: "made-up-4",
  cylinders: 4,
  leakDown: { watchPercent: 10, planPercent: 20, limitPercent: 30 },
});

export const settings = settingsSchema.parse({});
export const asOf = "2026-06-30";

export interface Making {
  readonly engines: number;
  readonly seed: number;
  readonly tests?: number;
  /** Points for each 1,000 h. */
  readonly rate?: number;
  readonly start?: number;
  /** What errors from this test on (0 the first) are multiplied by: ranges learnt before it are then too narrow. */
  readonly louderFrom?: number;
  readonly louder?: number;
}

const setUp = {
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

const reading = (cylinder: number, value: number): ReadingFact => ({
  cylinder,
  value,
  valueUnit: "%",
  supply: null,
  firstStroke: null,
  heardAt: [],
  order: null,
  remarks: null,
  line: 1,
});

export const testOf = (unit: string, date: string, meter: number, values: readonly number[]): TestFact => ({
  ...setUp,
  unit,
  date,
  time: null,
  meter,
  meterUnit: "h",
  test: "leak-down",
  attempt: 1,
  instrument: "tester A",
  depot: "Northfold",
  engineSerial: null,
  engineModel: model.id,
  testedBy: null,
  file: "tests.csv",
  readings: values.map((value, i) => reading(i + 1, value)),
});

export const repairOf = (unit: string, date: string, meter: number, more: Partial<RepairFact> = {}): RepairFact => ({
  unit,
  date,
  meter,
  scope: "complete",
  cylinders: "all",
  found: [],
  findings: [],
  cost: null,
  labourHours: null,
  downtimeDays: null,
  engineSerial: null,
  remarks: null,
  file: "repairs.csv",
  line: 1,
  ...more,
});

export const factsOf = (tests: readonly TestFact[], more: Partial<FleetFacts> = {}): FleetFacts => ({
  models: [model],
  depots: [{ depot: "Northfold", altitudeM: 20, file: "depots.csv", line: 1 }],
  units: [],
  tests,
  repairs: [],
  meterReadings: [],
  checks: [],
  judgements: [],
  ...more,
});

/** Straight wear, with an error that a test's readings share (1.5 points) and one of each reading (1 point and 7 %). */
export function madeUpTests({
  engines,
  seed,
  tests = 8,
  rate = 2,
  start = 6,
  louderFrom = tests,
  louder = 1,
}: Making): TestFact[] {
  const random = seededRandom(seed);
  const all: TestFact[] = [];
  for (let e = 0; e < engines; e++) {
    const unit = `M-${String(e + 1).padStart(3, "0")}`;
    const common = Math.max(0.1, random.normal(rate, 0.3 * rate));
    const base = Math.max(2, random.normal(start, 1.5));
    const own = [1, 2, 3, 4].map(() => ({ level: random.normal(0, 1), rate: random.normal(0, 0.2 * rate) }));
    let meter = random.between(500, 3000);
    const first = meter;
    let date = addDays("2022-02-01", random.whole(0, 60));
    for (let t = 0; t < tests; t++) {
      const factor = t >= louderFrom ? louder : 1;
      const shared = random.normal(0, 1.5);
      const values = own.map((c) => {
        const level = base + c.level + ((common + c.rate) * (meter - first)) / 1000;
        const error = factor * (shared + random.normal(0, Math.hypot(1, 0.07 * level)));
        return Math.round(10 * Math.min(95, Math.max(0, level + error))) / 10;
      });
      all.push(testOf(unit, date, Math.round(meter), values));
      const days = random.whole(150, 200);
      date = addDays(date, days);
      meter += 4 * days;
    }
  }
  return all.filter((test) => test.date <= asOf);
}

export const backTestFacts = (facts: FleetFacts, known = 0) => backTestOf(facts, { asOf, settings }, known);
