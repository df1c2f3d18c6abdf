import { describe, expect, test } from "vitest";
import { modelNamed } from "@/demo-data/engine-models.ts";
import { type EngineTruth, through } from "@/demo-data/plan.ts";
import { compressionOf, leakOf, shownPercent } from "@/demo-data/truth.ts";

const van = modelNamed("petrol-4-a");
const engine = (rings: number, exhaustInAll?: number): EngineTruth => ({
  serial: "x",
  rings: [() => rings],
  faults: exhaustInAll === undefined ? [] : [{ cylinder: 1, place: "exhaust", leakage: () => exhaustInAll }],
  filling: [() => 1],
});
const at = { cylinder: 1, years: 0 };

describe("what is true of a demo engine", () => {
  test("the usual tester at sea level shows the leakage that was meant, a fault on top of the rings", () => {
    const usual = { orificeMm: 1.016, supplyKpa: 550, altitudeM: 0 };
    expect(shownPercent(leakOf(van, engine(8), at).areaMm2, usual)).toBeCloseTo(8, 9);
    expect(shownPercent(leakOf(van, engine(8, 22), at).areaMm2, usual)).toBeCloseTo(22, 9);
  });

  test("a tester of 1.5 mm shows 20 % as about 4.5 %", () => {
    const area = leakOf(van, engine(20), at).areaMm2;
    expect(shownPercent(area, { orificeMm: 1.524, supplyKpa: 550, altitudeM: 620 })).toBeGreaterThan(4.2);
    expect(shownPercent(area, { orificeMm: 1.524, supplyKpa: 550, altitudeM: 620 })).toBeLessThan(4.8);
  });

  test.each([
    [6, 0],
    [10, 3],
    [20, 8],
    [30, 13],
    [40, 17],
  ])("leakage of %i %% costs %i %% of compression", (usualPercent, lost) => {
    const kpa = compressionOf(1250, engine(usualPercent), { ...at, usualPercent, altitudeM: 0 });
    expect(kpa).toBeCloseTo(1250 * (1 - lost / 100), 6);
  });

  test("at 1,850 m compression reads 20 % lower", () => {
    const on = (altitudeM: number) => compressionOf(2900, engine(6), { ...at, usualPercent: 6, altitudeM });
    expect(on(1850) / on(0)).toBeCloseTo(0.8, 2);
  });

  test("a course runs straight between its points and level beyond them", () => {
    const course = through([1, 10], [2, 20]);
    expect([0, 1, 1.5, 2, 3].map(course)).toEqual([10, 10, 15, 20, 20]);
  });
});
