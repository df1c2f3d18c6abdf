import { describe, expect, it } from "vitest";
import { testHours, testsOf, workingDays } from "@/lib/round/test-hours.ts";
import { settingsSchema } from "@/lib/schema/settings.ts";

const leakDown = { watchPercent: 10, planPercent: 20, limitPercent: 30, orificeMm: 1.016, supplyKpa: 550 };
const compression = { newKpa: 1250, minimumKpa: 900, spreadRule: "of-highest" } as const;
const times = { testReadyHours: 0.5, testCylinderMinutes: 15 };

describe("the tests of a round", () => {
  it("are those that the model is judged by", () => {
    expect(testsOf({ leakDown, compression })).toEqual(["leak-down", "compression-dry"]);
    expect(testsOf({ compression })).toEqual(["compression-dry"]);
    expect(testsOf({ leakDown })).toEqual(["leak-down"]);
  });

  it("take the time to get the engine ready once, and that of each cylinder for each kind of test", () => {
    expect(testHours({ leakDown, compression, cylinders: 4 }, times)).toBe(0.5 + 2);
    expect(testHours({ compression, cylinders: 6 }, times)).toBe(0.5 + 1.5);
    expect(testHours({ leakDown, cylinders: 1 }, settingsSchema.parse({}))).toBeCloseTo(0.75 + 1 / 6);
  });

  it("become working days where a depot has told whom it has", () => {
    expect(workingDays(30, { technicians: 2, productiveHoursPerDay: 6 })).toBe(2.5);
    expect(workingDays(30, { technicians: null, productiveHoursPerDay: 6 })).toBeNull();
    expect(workingDays(30, { technicians: 2, productiveHoursPerDay: null })).toBeNull();
    expect(workingDays(30, { technicians: 0, productiveHoursPerDay: 6 })).toBeNull();
  });
});
