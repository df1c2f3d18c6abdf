import fc from "fast-check";
import { addDays } from "@/lib/calendar.ts";
import { type EngineModel, engineModelSchema } from "@/lib/schema/engine-model.ts";
import type { FleetFacts, MeterFact, ReadingFact, RepairFact, SetUp, TestFact, UnitFact } from "@/lib/schema/facts.ts";
import { type Measure, places, repairScopes } from "@/lib/schema/words.ts";
import { meterFact, reading, repairFact, testFact, unitFact } from "../sealing/facts.ts";
import { petrol4 } from "./made-up-fleet.ts";

/** Small fleets of any shape, as fast-check draws them: tests, repairs, swaps, new meters, set-up told or not. */

export const asOf = "2026-06-30";

const single: EngineModel = engineModelSchema.parse({
  id: "single-a",
  cylinders: 1,
  leakDown: {
    watchPercent: 15,
    planPercent: 25,
    limitPercent: 35,
    valves: { watchPercent: 10, planPercent: 15, limitPercent: 20 },
  },
});
const compressionOnly: EngineModel = engineModelSchema.parse({
  id: "diesel-3-a",
  cylinders: 3,
  compression: { newKpa: 2900, minimumKpa: 2300, spreadRule: "absolute", spreadKpa: 300 },
});
export const models = [petrol4, single, compressionOnly];

const yesNo = fc.constantFrom(null, null, null, true, false);
const setUp: fc.Arbitrary<SetUp> = fc.record({
  orificeMm: fc.constantFrom(null, null, 1.524),
  warm: yesNo,
  throttleOpen: yesNo,
  allPlugsOut: yesNo,
  tdcConfirmed: yesNo,
  gaugeZeroed: yesNo,
  crankingRpm: fc.constantFrom(null, null, 90, 210),
  altitudeM: fc.constantFrom(null, 0, 1850),
  barometerKpa: fc.constant(null),
});

/** How far a reading lies off its cylinder's wear, in points: a little, or now and then anything. */
const off = fc.oneof(
  { weight: 12, arbitrary: fc.double({ min: -2, max: 2, noNaN: true }) },
  { weight: 1, arbitrary: fc.double({ min: -100, max: 100, noNaN: true }) },
);
const seldom = (oneIn: number) => fc.integer({ min: 1, max: oneIn }).map((n) => n === oneIn);

type Event =
  | { readonly kind: "test"; readonly fact: TestFact }
  | { readonly kind: "repair"; readonly fact: RepairFact }
  | { readonly kind: "meter"; readonly fact: MeterFact };

/** One unit's life: events some weeks and some use apart, meters that are replaced now and then. */
function unitLife(unit: string): fc.Arbitrary<{ readonly row: UnitFact; readonly events: readonly Event[] }> {
  return fc
    .record({
      model: fc.constantFrom(...models),
      meterUnit: fc.constantFrom("h" as const, "km" as const, "mi" as const),
      beginsAt: fc.integer({ min: 0, max: 40_000 }),
      lastDaysAgo: fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 900 })),
      // Points of leakage, or of compression in % of new, lost at first and with each step.
      worn: fc.double({ min: 2, max: 25, noNaN: true }),
      wearStep: fc.double({ min: -0.5, max: 4, noNaN: true }),
    })
    .chain(({ model, meterUnit, beginsAt, lastDaysAgo, worn, wearStep }) => {
      const perDay = meterUnit === "h" ? 6 : 120;
      const cylinders = Array.from({ length: model.cylinders }, (_, i) => i + 1);
      const step = fc.record({
        days: fc.oneof({ weight: 6, arbitrary: fc.integer({ min: 60, max: 250 }) }, fc.integer({ min: 0, max: 10 })),
        pace: fc.oneof({ weight: 6, arbitrary: fc.double({ min: 0.5, max: 1.5, noNaN: true }) }, fc.constantFrom(0, 8)),
        isNewMeter: seldom(20),
        what: fc.oneof(
          { weight: 12, arbitrary: fc.constantFrom<Measure>("leak-down", "compression-dry", "compression-wet") },
          { weight: 1, arbitrary: fc.constantFrom("repair" as const, "meter" as const) },
        ),
        setUp: fc.oneof({ weight: 3, arbitrary: fc.constant({}) }, setUp),
        readings: fc.tuple(
          ...cylinders.map((cylinder) =>
            fc.record({
              cylinder: fc.constant(cylinder),
              off,
              heardAt: fc.subarray([...places], { maxLength: 2 }),
              isMissing: seldom(12),
            }),
          ),
        ),
        scope: fc.constantFrom(...repairScopes),
        named: fc.subarray(cylinders, { minLength: 1 }),
        serial: fc.constantFrom(null, "E-1", "E-2"),
      });
      return fc.array(step, { maxLength: 14, size: "max" }).map((steps) => {
        let date = addDays(asOf, -lastDaysAgo - steps.reduce((sum, s) => sum + s.days, 0));
        let meter = beginsAt;
        const attempts = new Map<string, number>();
        const events = steps.flatMap((s, i): Event[] => {
          date = addDays(date, s.days);
          meter = Math.round(meter + s.days * s.pace * perDay);
          const common = { unit, date };
          const events: Event[] = [];
          if (s.isNewMeter) {
            meter = 0;
            events.push({ kind: "meter", fact: meterFact({ ...common, meter, meterReset: true }) });
          }
          if (s.what === "meter") events.push({ kind: "meter", fact: meterFact({ ...common, meter }) });
          else if (s.what === "repair") {
            const engineSerial = s.scope === "engine-swap" ? s.serial : null;
            const fact = repairFact({ ...common, meter, scope: s.scope, cylinders: s.named, engineSerial });
            events.push({ kind: "repair", fact });
          } else {
            const test = s.what;
            const newKpa = model.compression?.newKpa ?? 1250;
            const readings = s.readings.flatMap(({ cylinder, isMissing, off: points, heardAt }): ReadingFact[] => {
              if (isMissing) return [];
              const lost = Math.min(100, Math.max(0, worn + wearStep * i + points));
              return test === "leak-down"
                ? [reading({ cylinder, value: lost, heardAt })]
                : [reading({ cylinder, value: newKpa * (1.05 - lost / 100), valueUnit: "kPa" })];
            });
            if (readings.length === 0) return events;
            // Tests of one day are told apart by their attempt.
            const attempt = (attempts.get(`${date} ${test}`) ?? 0) + 1;
            attempts.set(`${date} ${test}`, attempt);
            events.push({
              kind: "test",
              fact: testFact({ ...common, ...s.setUp, meter, meterUnit, test, attempt, readings }),
            });
          }
          return events;
        });
        return { row: unitFact({ unit, engineModel: model.id, meterUnit }), events };
      });
    });
}

/** Three units of any of the models, not all of them tested; engines move between them now and then. */
export const smallFleet: fc.Arbitrary<Partial<FleetFacts>> = fc
  .tuple(unitLife("A-1"), unitLife("A-2"), unitLife("A-3"))
  .map((lives) => {
    const events = lives.flatMap((life) => life.events);
    return {
      models,
      units: lives.map((life) => life.row),
      tests: events.flatMap((e) => (e.kind === "test" ? [e.fact] : [])),
      repairs: events.flatMap((e) => (e.kind === "repair" ? [e.fact] : [])),
      meterReadings: events.flatMap((e) => (e.kind === "meter" ? [e.fact] : [])),
    };
  });
