import { describe, expect, test } from "vitest";
import type { TestFact } from "@/lib/schema/facts.ts";
import type { ValueUnit } from "@/lib/schema/words.ts";
import { roundingSteps } from "@/lib/sealing/rounding.ts";
import type { SealedReading } from "@/lib/sealing/types.ts";
import { toKpa } from "@/lib/units.ts";
import { engineOf, indexed, reading, testFact, unitFact } from "./facts.ts";

const testOf = (values: readonly number[], valueUnit: ValueUnit, changes: Partial<TestFact> = {}): TestFact =>
  testFact({
    test: valueUnit === "%" ? "leak-down" : "compression-dry",
    altitudeM: 0,
    readings: values.map((value, i) => reading({ cylinder: i + 1, value, valueUnit })),
    ...changes,
  });

/** The readings of the first of an engine's tests. */
const sealedReadings = (tests: readonly TestFact[]): readonly SealedReading[] =>
  engineOf(indexed({ units: [unitFact()], tests })).tests[0]?.readings ?? [];

const stepOf = (values: readonly number[], unit: ValueUnit): number => {
  const fact = testOf(values, unit);
  return roundingSteps([fact])(fact, unit);
};

describe("the step that readings were rounded to", () => {
  test.each<[string, readonly number[], ValueUnit, number]>([
    ["5 psi", [165, 160, 170, 165], "psi", 5],
    ["single psi", [165, 160, 171, 165], "psi", 1],
    ["quarters of a bar", [11.25, 11.5, 12, 11.75], "bar", 0.25],
    ["tenths of a bar", [11.2, 11.5, 12, 11.7], "bar", 0.1],
    ["whole per cents", [8, 9, 11, 8], "%", 1],
    ["tenths of a per cent", [8.3, 9, 11, 8.4], "%", 0.1],
    ["finer than anything usual", [8.317, 9.204], "%", 0],
    ["two by two, seldom seen: by chance as well", [8, 10, 14, 12], "%", 1],
    ["two by two, often seen", [8, 10, 14, 12, 8, 6, 12, 16], "%", 2],
    ["all alike says nothing", [10, 10, 10, 10], "%", 1],
    ["5 psi that happen to be tens are no tens", [150, 160, 150, 160], "psi", 5],
    ["5 psi, written as kPa", [165, 160, 170, 165].map((psi) => toKpa(psi, "psi")), "kPa", toKpa(5, "psi")],
    ["no reading", [], "kPa", 0],
  ])("%s", (_, values, unit, step) => {
    expect(stepOf(values, unit)).toBeCloseTo(step, 9);
  });

  test("is that of the instrument in all tests, and of no other", () => {
    const coarse = [1, 2, 3].map((i) =>
      testOf([1150, 1100, 1200], "kPa", { instrument: "CG-1", date: `2025-0${i}-10` }),
    );
    const fine = testOf([1150, 1103, 1200], "kPa", { instrument: "CG-2" });
    const unnamed = testOf([1150, 1100], "kPa");
    const of = roundingSteps([...coarse, fine, unnamed]);
    expect([...coarse, fine, unnamed].map((fact) => of(fact, "kPa"))).toEqual([50, 50, 50, 1, 1]);
  });
});

describe("what rounding adds to a sealed reading", () => {
  test("compression: a step over the square root of 12, referred as the reading is", () => {
    const [low] = sealedReadings([testOf([165, 160, 170, 165], "psi")]);
    expect(low?.roundingSd).toBeCloseTo((5 * 6.894757) / Math.sqrt(12), 5);
    const [high] = sealedReadings([testOf([165, 160, 170, 165], "psi", { altitudeM: 1500 })]);
    expect((high?.roundingSd ?? 0) / (low?.roundingSd ?? 1)).toBeCloseTo((high?.value ?? 0) / (low?.value ?? 1), 9);
  });

  test("held pressure: points of the supply", () => {
    const held = [70, 65, 75, 70].map((value, i) => reading({ cylinder: i + 1, value, valueUnit: "psi", supply: 80 }));
    const [first] = sealedReadings([testFact({ altitudeM: 0, readings: held })]);
    expect(first?.roundingSd).toBeCloseTo((100 * 5) / 80 / Math.sqrt(12), 9);
  });

  test("another tester: by the slope of its conversion, that of two readings half a point apart on either side", () => {
    const on = (value: number) => {
      const fact = testOf([value, 9, 12.1, 7], "%", { orificeMm: 1.5 });
      return sealedReadings([fact])[0];
    };
    const slope = ((on(6.1)?.value ?? 0) - (on(5.9)?.value ?? 0)) / 0.2;
    expect(slope).toBeGreaterThan(1.5);
    expect(on(6)?.roundingSd).toBeCloseTo((0.1 * slope) / Math.sqrt(12), 3);
  });
});
