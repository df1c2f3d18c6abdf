import fc from "fast-check";
import { expect, test } from "vitest";
import type { FleetFacts } from "@/lib/schema/facts.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import {
  checkFact,
  depotFact,
  engineOf,
  fleet,
  indexed,
  meterFact,
  model,
  reading,
  repairFact,
  testFact,
  unitFact,
  unitOf,
} from "./facts.ts";

const everyone = fleet({
  models: [model(), model({ id: "diesel-6-a", cylinders: 6 })],
  depots: [depotFact("Lowmarsh", 5), depotFact("Highcol", 1850)],
  units: [
    unitFact({ depot: "Lowmarsh", inServiceDate: "2023-01-01", inServiceMeter: 0, engineSerial: "E1" }),
    unitFact({ unit: "H-302", engineModel: "diesel-6-a", engineSerial: "H2", meterUnit: "h" }),
    unitFact({ unit: "H-305", engineModel: "diesel-6-a", meterUnit: "h" }),
    unitFact({ unit: "H-306", engineModel: "diesel-6-a", meterUnit: null }),
    unitFact({ unit: "X-1", engineModel: "unknown" }),
  ],
  tests: [
    testFact({ meter: 500, date: "2024-01-10" }),
    testFact({ meter: 900, date: "2024-09-10", depot: "Highcol", test: "compression-dry", readings: kpa(800, 810) }),
    testFact({ meter: 80, date: "2025-05-10", orificeMm: 1.5 }),
    testFact({ unit: "H-302", meterUnit: "h", meter: 4000, date: "2024-02-01" }),
    testFact({ unit: "H-302", meterUnit: "h", meter: 5500, date: "2025-08-01" }),
    testFact({ unit: "H-305", meterUnit: "h", meter: 7600, date: "2025-09-01" }),
    testFact({ unit: "N-9", meterUnit: "h", meter: 7600, date: "2025-09-01" }),
  ],
  repairs: [
    repairFact({ unit: "H-302", meter: 5000, date: "2025-03-01", scope: "engine-swap", engineSerial: "FLOAT" }),
    repairFact({ unit: "H-302", meter: 5000, date: "2025-04-01", scope: "complete", engineSerial: "H2" }),
    repairFact({ unit: "H-305", meter: 7000, date: "2025-05-01", scope: "engine-swap", engineSerial: "H2" }),
    repairFact({ date: "2024-06-01", meter: 700, cylinders: [3, 2, 9] }),
  ],
  meterReadings: [
    meterFact({ date: "2024-10-01", meter: 1000 }),
    meterFact({ date: "2024-10-02", meter: 1, meterReset: true }),
  ],
  checks: [checkFact({ date: "2025-05-20", meter: 90 }), checkFact({ unit: "H-305", date: "2025-06-01" })],
});

function kpa(...values: number[]) {
  return values.map((value, i) => reading({ cylinder: i + 1, value, valueUnit: "kPa" }));
}

function everythingOf(facts: FleetFacts) {
  const index = indexFleet(facts, { asOf: "2026-06-30" });
  return { units: index.units, problems: index.problems, engines: index.engineKeys.map((key) => index.seal(key)) };
}

test("the order of the facts does not matter", () => {
  const shuffled = <T>(list: readonly T[]) => fc.shuffledSubarray([...list], { minLength: list.length });
  const wanted = everythingOf(everyone);
  fc.assert(
    fc.property(
      fc.record({
        models: shuffled(everyone.models),
        depots: shuffled(everyone.depots),
        units: shuffled(everyone.units),
        tests: shuffled(everyone.tests),
        repairs: shuffled(everyone.repairs),
        meterReadings: shuffled(everyone.meterReadings),
        checks: shuffled(everyone.checks),
        judgements: shuffled(everyone.judgements),
      }),
      (facts) => {
        expect(everythingOf(facts)).toEqual(wanted);
      },
    ),
  );
});

test("sealing leaves the facts as they were, and gives the same each time", () => {
  const before = structuredClone(everyone);
  expect(everythingOf(everyone)).toEqual(everythingOf(everyone));
  expect(everyone).toEqual(before);
});

test("every unit with a model is there, tested or not; the others are named", () => {
  const { units, problems } = everythingOf(everyone);
  expect(units.map((u) => u.unit)).toEqual(["H-302", "H-305", "H-306", "V-101"]);
  expect(problems).toEqual([
    "Unit N-9 is left out: no engine model is told.",
    "Unit X-1 is left out: engine model unknown is not known.",
  ]);
  const index = indexFleet(everyone, { asOf: "2026-06-30" });
  const neverTested = unitOf(index, "H-306");
  expect(neverTested.engine).toBe("H-306 #1");
  expect(neverTested.meterPoints).toEqual([]);
  expect(neverTested.meterUnit).toBe("h");
  expect(neverTested.warnings).toEqual(["The unit's meter unit is not told: h is assumed."]);
  expect(index.seal("H-306 #1").tests).toEqual([]);
  expect(() => index.seal("nobody")).toThrow(RangeError);
});

test("nothing after the as-of date is known", () => {
  const then = indexFleet(everyone, { asOf: "2025-02-28" });
  expect(unitOf(then, "H-302").engine).toBe("H2");
  expect(engineOf(then, "H-302").tests.map((t) => t.meter)).toEqual([4000]);
  expect(engineOf(then, "H-302").repairs).toEqual([]);
  expect(unitOf(then).meterPoints.at(-1)).toEqual({ date: "2024-10-02", meter: 1, cumulative: 1001 });
  const inclusive = indexFleet(everyone, { asOf: "2025-03-01" });
  expect(unitOf(inclusive, "H-302").engine).toBe("FLOAT");
});

test("V-111: 212,400 to 35 km with a reset: wear continues", () => {
  const units = [unitFact()];
  const tests = [
    testFact({ date: "2024-03-01", meter: 190_000 }),
    testFact({ date: "2025-03-01", meter: 212_400 }),
    testFact({ date: "2026-03-01", meter: 25_000 }),
  ];
  const meterReadings = [meterFact({ date: "2025-03-05", meter: 35, meterReset: true })];
  const index = indexed({ units, tests, meterReadings });
  expect(engineOf(index).tests.map((t) => [t.x, t.meter])).toEqual([
    [190_000, 190_000],
    [212_400, 212_400],
    [237_400, 25_000],
  ]);
  expect(unitOf(index)).toMatchObject({ offset: 212_400, engineOffset: 0, warnings: [] });
});

test("V-112: the same without a reset: the low readings are left out, with the cure in words", () => {
  const tests = [
    testFact({ date: "2024-03-01", meter: 190_000 }),
    testFact({ date: "2025-03-01", meter: 212_400 }),
    testFact({ date: "2026-03-01", meter: 25_000 }),
  ];
  const index = indexed({ units: [unitFact()], tests });
  expect(engineOf(index).tests.map((t) => t.x)).toEqual([190_000, 212_400]);
  expect(unitOf(index).warnings.join(" ")).toContain("meter_reset = yes");
});

test("a test with a mistyped meter between others is placed by its date", () => {
  const tests = [
    testFact({ date: "2025-01-01", meter: 1000 }),
    testFact({ date: "2025-01-06", meter: 90_000 }),
    testFact({ date: "2025-01-11", meter: 2000 }),
    testFact({ date: "2025-01-21", meter: 3000 }),
  ];
  const index = indexed({ units: [unitFact()], tests });
  expect(engineOf(index).tests.map((t) => t.x)).toEqual([1000, 1500, 2000, 3000]);
  expect(unitOf(index).warnings).toHaveLength(1);
});

test("Midfell's 1.5 mm tester: 20 % does not become 4.5 %", () => {
  const leakDown = { watchPercent: 10, planPercent: 20, limitPercent: 30, orificeMm: 1, supplyKpa: 550 };
  const tests = [
    testFact({ date: "2025-01-01", meter: 1000, readings: [reading({ value: 20 })] }),
    testFact({ date: "2025-07-01", meter: 2000, orificeMm: 1.5, readings: [reading({ value: 4.5 })] }),
  ];
  const sealed = engineOf(indexed({ models: [model({ leakDown })], units: [unitFact()], tests })).tests;
  const [before, after] = sealed.map((t) => t.readings[0]);
  expect(before?.value).toBe(20);
  expect(Math.abs((after?.value ?? 0) - 20)).toBeLessThan(1);
  expect(after?.referralSd).toBeGreaterThan(3);
  expect(sealed[1]?.referral).toEqual([
    "referred from a 1.5 mm tester at 550 kPa to 1 mm at 550 kPa, with a wider error",
  ]);
});

test("L-205 moves up to Highcol: raw compression −20 %, sealed level", () => {
  const tests = [
    testFact({ date: "2025-01-01", meter: 1000, depot: "Lowmarsh", test: "compression-dry", readings: kpa(2800) }),
    testFact({ date: "2025-07-01", meter: 2000, depot: "Highcol", test: "compression-dry", readings: kpa(2240) }),
  ];
  const values = engineOf(
    indexed({ ...everyone, tests, repairs: [], units: [unitFact({ depot: "Highcol" })] }),
  ).tests.map((t) => t.readings[0]?.value ?? 0);
  expect(values[0]).toBeCloseTo(2801.7, 1);
  expect(Math.abs((values[1] ?? 0) - 2800)).toBeLessThan(5);
});

test("kPa and psi tell the same", () => {
  const inUnit = (value: number, valueUnit: "kPa" | "psi") =>
    engineOf(
      indexed({
        units: [unitFact()],
        tests: [testFact({ test: "compression-dry", readings: [reading({ value, valueUnit })] })],
      }),
    ).tests[0]?.readings[0]?.value ?? 0;
  expect(inUnit(150, "psi")).toBeCloseTo(inUnit(150 * 6.894757293168361, "kPa"), 9);
});

test("readings that cannot be read are left out and said so", () => {
  const readings = [
    reading({ cylinder: 2 }),
    reading({ cylinder: 1, value: 60, valueUnit: "psi" }),
    reading({ cylinder: 3, value: 90, valueUnit: "psi", supply: 80 }),
    reading({ cylinder: 5 }),
  ];
  const sealed = engineOf(indexed({ units: [unitFact()], tests: [testFact({ readings, altitudeM: 0 })] })).tests[0];
  expect(sealed?.readings.map((r) => r.cylinder)).toEqual([2]);
  expect(sealed?.referral).toEqual([
    "cylinder 1: 60 psi left out",
    "cylinder 3: 90 psi left out",
    "cylinder 5: 10 % left out",
  ]);
});

test("a same-day test with a lower meter is before the repair, one with the same meter after it", () => {
  const date = "2025-06-01";
  const tests = [testFact({ date, meter: 2000, attempt: 2 }), testFact({ date, meter: 1999 })];
  const engine = engineOf(indexed({ units: [unitFact()], tests, repairs: [repairFact({ date, meter: 2000 })] }));
  const [repair] = engine.repairs;
  const isAfter = engine.tests.map((t) => t.x > (repair?.x ?? 0) || (t.x === repair?.x && t.date >= repair.date));
  expect(isAfter).toEqual([false, true]);
});

test("a repair names its cylinders, or all, and those that the engine has", () => {
  const repairs = [repairFact({ cylinders: [3, 9, 2] }), repairFact({ date: "2025-07-01", meter: 2500 })];
  const engine = engineOf(indexed({ units: [unitFact()], repairs }));
  expect(engine.repairs.map((r) => r.cylinders)).toEqual([
    [2, 3],
    [1, 2, 3, 4],
  ]);
});

test("checks stand on the engine's wear meter, or nowhere where no meter was read", () => {
  const engine = engineOf(indexFleet(everyone, { asOf: "2026-06-30" }));
  expect(engine.checks.map((c) => c.x)).toEqual([1090]);
  expect(engineOf(indexFleet(everyone, { asOf: "2026-06-30" }), "H-305").checks.map((c) => c.x)).toEqual([null]);
});

test("rows of a unit in several files: what a later one tells goes before, what it leaves out stays", () => {
  const units = [unitFact({ depot: "Highcol", class: "van" }), unitFact({ file: "units2.csv", depot: "Lowmarsh" })];
  expect(unitOf(indexed({ units }))).toMatchObject({ depot: "Lowmarsh", class: "van" });
});

test("a unit in km with a test in miles: converted; in hours: left out", () => {
  const tests = [testFact({ meter: 1000 }), testFact({ meter: 1000, meterUnit: "mi", date: "2025-09-01" })];
  const index = indexed({ units: [unitFact()], tests: [...tests, testFact({ meterUnit: "h", date: "2025-10-01" })] });
  expect(engineOf(index).tests.map((t) => t.x)).toEqual([1000, 1609.344]);
  expect(unitOf(index).warnings).toHaveLength(1);
});
