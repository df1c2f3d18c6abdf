import { engineModelFile, modelNamed } from "../../demo-data/engine-models.ts";
import { readGauge } from "../../demo-data/gauges.ts";
import type { EngineTruth } from "../../demo-data/plan.ts";
import { type Random, seededRandom } from "../../demo-data/random.ts";
import { compressionOf, leakOf } from "../../demo-data/truth.ts";
import { addDays } from "../../lib/calendar.ts";
import { repeatability } from "../../lib/repeatability.ts";
import { type EngineModel, engineModelFileSchema } from "../../lib/schema/engine-model.ts";
import type { TestFact } from "../../lib/schema/facts.ts";
import type { JudgedMeasure, MeterUnit, PressureUnit } from "../../lib/schema/words.ts";

/**
 * Made-up fleets whose tests are all honest: engines wear, cylinders differ, readings scatter as the trade has it, and
 * are read to the marks of the gauge. What a warning of slips says of them is a false alarm.
 */

export interface GaugeKind {
  readonly name: string;
  readonly model: string;
  readonly meterUnit: MeterUnit;
  readonly pressureUnit: PressureUnit;
  /** Between two marks of the gauge, in its unit. */
  readonly step: number;
  /** Between two marks of the leak-down tester, in points. */
  readonly leakStep: number;
}

/** Gauges as workshops have them, fine and coarse, on engines of four, six and eight cylinders. */
export const gaugeKinds: readonly GaugeKind[] = [
  { name: "petrol four, 5 kPa", model: "petrol-4-a", meterUnit: "km", pressureUnit: "kPa", step: 5, leakStep: 1 },
  { name: "petrol four, 5 psi", model: "petrol-4-a", meterUnit: "mi", pressureUnit: "psi", step: 5, leakStep: 1 },
  { name: "diesel four, 0.2 bar", model: "diesel-4-a", meterUnit: "km", pressureUnit: "bar", step: 0.2, leakStep: 1 },
  { name: "diesel four, 1 bar", model: "diesel-4-a", meterUnit: "mi", pressureUnit: "bar", step: 1, leakStep: 2 },
  { name: "diesel six, 0.5 bar", model: "diesel-6-a", meterUnit: "h", pressureUnit: "bar", step: 0.5, leakStep: 1 },
  { name: "petrol V8, 0.1 bar", model: "petrol-v8-a", meterUnit: "h", pressureUnit: "bar", step: 0.1, leakStep: 1 },
];

const models = new Map(engineModelFileSchema.parse(engineModelFile).engineModels.map((model) => [model.id, model]));

export const modelOf = (kind: GaugeKind): EngineModel => models.get(kind.model) as EngineModel;

/** What was measured on one visit to the workshop, and what is true of the engine then: kPa, and % of leakage. */
export interface Visit {
  readonly compression: TestFact;
  readonly leakDown: TestFact;
  readonly true: { readonly compression: readonly number[]; readonly leakDown: readonly number[] };
}

export interface HonestUnit {
  readonly unit: string;
  readonly kind: GaugeKind;
  readonly inServiceDate: string;
  /** Ascending by date. */
  readonly visits: readonly Visit[];
}

export const scheduledVisits = 6;
/** One test in twenty is doubted and made again within a fortnight; every other such unit stands until then. */
const againShare = 0.05;
const daysAgain = [3, 14] as const;
/** One engine in six has a valve that burns, mildly or badly: then its cylinders differ as they do in life. */
const burntShare = 1 / 6;

const usePerDay: Readonly<Record<MeterUnit, readonly [number, number]>> = { km: [60, 250], mi: [40, 150], h: [1, 7] };

function engineOf(random: Random, cylinders: number): EngineTruth {
  const start = random.between(3, 10);
  const perYear = random.between(0.3, 2.5);
  const rings = Array.from({ length: cylinders }, () => {
    const [own, rate] = [Math.max(1, start + random.normal(0, 1.2)), Math.max(0, perYear + random.normal(0, 0.4))];
    return (years: number) => own + rate * years;
  });
  const filling = Array.from({ length: cylinders }, () => {
    const share = random.normal(1, 0.012);
    return () => share;
  });
  const burnt = random.whole(1, cylinders);
  const worst = random.between(5, 25);
  const begun = random.between(0, 4);
  const leakage = (years: number) =>
    (rings[burnt - 1]?.(years) ?? 0) + worst * Math.min(1, Math.max(0, (years - begun) / 2));
  const faults = random.uniform() < burntShare ? [{ cylinder: burnt, place: "exhaust" as const, leakage }] : [];
  return { serial: "", rings, filling, faults };
}

interface When {
  readonly date: string;
  readonly meter: number;
  readonly years: number;
}

/** The two tests of a visit: what all readings of one share, and what each has of its own. */
function visitOf(
  unit: string,
  kind: GaugeKind,
  engine: EngineTruth,
  { date, meter, years }: When,
  random: Random,
): Visit {
  const model = modelNamed(kind.model);
  const cylinders = Array.from({ length: model.cylinders }, (_, i) => i + 1);
  const leakDown = cylinders.map((cylinder) => leakOf(model, engine, { cylinder, years }).usualPercent);
  const compression = cylinders.map((cylinder, i) =>
    compressionOf(model.compression?.newKpa ?? 0, engine, {
      cylinder,
      years,
      usualPercent: leakDown[i] as number,
      altitudeM: 0,
    }),
  );
  const read = (test: JudgedMeasure, levels: readonly number[], marks: (level: number) => number): TestFact => {
    const shared = random.normal(0, 1);
    return testOf(
      unit,
      kind,
      test,
      { date, meter },
      levels.map((level) => {
        const sd = repeatability(test, level);
        return marks(level + sd.shared * shared + sd.own * random.normal(0, 1));
      }),
    );
  };
  return {
    compression: read("compression-dry", compression, (kpa) =>
      readGauge(kpa, { unit: kind.pressureUnit, step: kind.step }),
    ),
    leakDown: read("leak-down", leakDown, (percent) =>
      Math.max(0, Math.round(percent / kind.leakStep) * kind.leakStep),
    ),
    true: { compression, leakDown },
  };
}

function testOf(
  unit: string,
  kind: GaugeKind,
  test: JudgedMeasure,
  { date, meter }: Pick<When, "date" | "meter">,
  values: readonly number[],
): TestFact {
  const nothing = { orificeMm: null, warm: null, throttleOpen: null, allPlugsOut: null, tdcConfirmed: null } as const;
  const told = { ...nothing, gaugeZeroed: null, crankingRpm: null, altitudeM: null, barometerKpa: null } as const;
  return {
    ...told,
    unit,
    date,
    time: null,
    meter,
    meterUnit: kind.meterUnit,
    test,
    attempt: 1,
    instrument: null,
    depot: null,
    engineSerial: null,
    engineModel: kind.model,
    testedBy: null,
    file: "tests.csv",
    readings: values.map((value, i) => ({
      cylinder: i + 1,
      value,
      valueUnit: test === "leak-down" ? "%" : kind.pressureUnit,
      supply: test === "leak-down" ? 550 : null,
      firstStroke: test === "leak-down" ? null : value * 0.74,
      heardAt: [],
      order: null,
      remarks: null,
      line: i + 2,
    })),
  };
}

/** Units of one kind of gauge, the same for the same seed. Tests lie about a year apart; some units are young at the first. */
export function honestFleet(kind: GaugeKind, units: number, seed: number): readonly HonestUnit[] {
  const random = seededRandom(seed);
  return Array.from({ length: units }, (_, i) => {
    const unit = `V-${101 + i}`;
    const engine = engineOf(random, modelOf(kind).cylinders);
    const perDay = random.between(...usePerDay[kind.meterUnit]);
    const inServiceDate = addDays("2012-01-01", random.whole(0, 3000));
    let days = Math.round(random.between(60, 1500));
    let meter = days * perDay * random.between(0.8, 1.2);
    const visits: Visit[] = [];
    const visit = () => {
      const when = { date: addDays(inServiceDate, days), meter: Math.round(meter), years: days / 365 };
      visits.push(visitOf(unit, kind, engine, when, random));
    };
    for (let v = 0; v < scheduledVisits; v++) {
      visit();
      if (random.uniform() < againShare) {
        const later = random.whole(...daysAgain);
        const stands = random.uniform() < 0.5;
        days += later;
        if (!stands) meter += later * perDay;
        visit();
      }
      const gap = Math.round(365 * random.between(0.6, 1.3));
      days += gap;
      meter += gap * perDay * random.between(0.6, 1.4);
    }
    return { unit, kind, inServiceDate, visits };
  });
}
