import { describe, expect, test } from "vitest";
import { addDays } from "@/lib/calendar.ts";
import { familySpread } from "@/lib/condition/family.ts";
import { familyInputOf, fitFamily } from "@/lib/condition/family-fit.ts";
import { fewestForInstrument, fleetRepeatability } from "@/lib/condition/fleet-repeatability.ts";
import { repeatability } from "@/lib/repeatability.ts";
import { seededRandom } from "../../../demo-data/random.ts";
import { conditioned, every10000, petrol4, type TestGiven } from "./histories.ts";

const starting = { cylinderLevelSd: 1.5, cylinderRateSd: 1e-5, rateMean: 3e-5, rateSd: 2e-5, wanderVariance: 1e-6 };

interface Fleet {
  readonly engines?: number;
  readonly own: number;
  readonly shared?: number;
  readonly instruments?: readonly { readonly name: string; readonly own: number; readonly bias: number }[];
  /** Each test is made twice, a week apart. */
  readonly repeated?: boolean;
  /** One cylinder of so many engines in a hundred burns a valve. */
  readonly failing?: number;
}

/** Sound engines with these errors, fitted. */
function fitted({ engines = 40, own, shared = 1.5, instruments, repeated = false, failing = 0 }: Fleet) {
  const random = seededRandom(11);
  const usual = [{ name: "LT-1", own, bias: 0 }];
  const inputs = Array.from({ length: engines }, (_, e) => {
    const levels = Array.from({ length: 4 }, () => 8 + random.normal(0, 1));
    const tests = Array.from({ length: repeated ? 12 : 8 }, (_, i): TestGiven => {
      const tester = (instruments ?? usual)[random.whole(0, (instruments ?? usual).length - 1)] as (typeof usual)[0];
      const common = random.normal(0, shared) + tester.bias;
      const values = levels.map((level, c) => {
        const fault = c === 2 && e % 100 < failing && i > 4 ? 12 * (i - 4) : 0;
        return Math.max(0, level + fault + common + random.normal(0, tester.own));
      });
      const x = repeated ? 50_000 + 10_000 * Math.floor(i / 2) + 700 * (i % 2) : 50_000 + 10_000 * i;
      return { x, values, instrument: tester.name };
    });
    const input = familyInputOf(conditioned({ tests }), "leak-down");
    return { ...input, repeats: input.repeats.map((r) => ({ ...r, occasion: `${e} ${r.occasion}` })) };
  });
  return fitFamily("leak-down", inputs);
}

describe("what sound cylinders of a kind differ by", () => {
  test("a reading's own error is found, and outweighs the starting value with the fleet's size", () => {
    const spread = familySpread("leak-down", starting, fitted({ own: 0.8 }));
    expect(spread.ownSd(8, null)).toBeGreaterThan(0.72);
    expect(spread.ownSd(8, null)).toBeLessThan(0.92);
    const few = familySpread("leak-down", starting, fitted({ own: 0.8, engines: 1 }));
    expect(few.ownSd(8, null)).toBeGreaterThan(spread.ownSd(8, null));
    expect(few.ownSd(8, null)).toBeLessThan(repeatability("leak-down", 8).own);
  });
  test("cylinders that fail hardly widen it", () => {
    const sound = familySpread("leak-down", starting, fitted({ own: 1.1 }));
    const some = familySpread("leak-down", starting, fitted({ own: 1.1, failing: 10 }));
    expect(some.ownSd(8, null) / sound.ownSd(8, null)).toBeLessThan(1.12);
    expect(some.cylinderLevelSd / sound.cylinderLevelSd).toBeLessThan(1.2);
  });
  test("without tests the starting values stand, growing with level", () => {
    const spread = familySpread("leak-down", starting, null);
    for (const level of [5, 14, 25]) {
      expect(spread.ownSd(level, null) / repeatability("leak-down", level).own).toBeCloseTo(1, 0);
    }
    expect(spread.ownSd(25, null)).toBeGreaterThan(spread.ownSd(5, null));
    expect(spread.sharedSd(10)).toBe(1.5);
    expect(spread.falseHearing).toBeCloseTo(0.01, 6);
    const kpa = familySpread("compression-dry", starting, null);
    expect(kpa.ownSd(1200, null)).toBeCloseTo(18, 6);
    expect(kpa.sharedSd(1200)).toBeCloseTo(30, 6);
  });
});

describe("what readings of the fleet repeat to", () => {
  test("a whole test, from repeats within a fortnight alone", () => {
    const none = fleetRepeatability("leak-down", [fitted({ own: 1, shared: 3 })]);
    expect(none.shared).toEqual({ sd: 1.5, freedom: 0, occasions: 0, tests: 0 });
    const found = fleetRepeatability("leak-down", [fitted({ own: 1, shared: 3, repeated: true })]);
    expect(found.shared.occasions).toBeGreaterThan(100);
    expect(found.shared.tests).toBeGreaterThanOrEqual(2 * found.shared.occasions);
    expect(found.shared.sd).toBeGreaterThan(2.5);
    expect(found.shared.sd).toBeLessThan(3.3);
    expect(found.between).toBeNull();
  });
  test("what instruments add, and an instrument of its own where it was used enough", () => {
    const instruments = [
      { name: "LT-1", own: 0.8, bias: 0 },
      { name: "LT-2", own: 0.8, bias: 4 },
      { name: "LT-3", own: 2.4, bias: -4 },
    ];
    const found = fleetRepeatability("leak-down", [fitted({ own: 1, instruments, repeated: true })]);
    expect(found.between?.freedom).toBe(2);
    expect(found.between?.sd).toBeGreaterThan(2);
    const factors = new Map(found.instruments.map((one) => [one.instrument, one]));
    expect(factors.get("LT-3")?.factor).toBeGreaterThan(1.3 * (factors.get("LT-1")?.factor ?? Infinity));
    expect(found.instruments.every((one) => one.counts && one.freedom >= fewestForInstrument)).toBe(true);
    const few = fleetRepeatability("leak-down", [fitted({ own: 1, instruments, engines: 2, repeated: true })]);
    expect(few.instruments.some((one) => one.counts)).toBe(false);
    const fit = fitted({ own: 1, instruments, repeated: true });
    const spread = familySpread("leak-down", starting, fit, found);
    expect(spread.ownSd(8, "LT-3")).toBeGreaterThan(spread.ownSd(8, "LT-1"));
    expect(spread.ownSd(8, "unheard of")).toBe(spread.ownSd(8, null));
  });
  test("the order of the engines does not matter, and of very many repeats the latest are kept", () => {
    const random = seededRandom(5);
    const inputs = Array.from({ length: 60 }, (_, e) => {
      const tests = Array.from({ length: 10 }, (_, i): TestGiven => {
        const values = [8, 8.3, 7.9, 8.4].map((level) => level + random.normal(0, 0.7));
        const x = 50_000 + 10_000 * Math.floor(i / 2) + 700 * (i % 2);
        // Engines tested the later, the lower their number: order by engine is not order by date.
        return { x, values, instrument: `LT-${e % 3}`, date: addDays("2024-01-01", 100 * i - (i % 2) * 93 - e) };
      });
      const { history, ...rest } = conditioned({ tests });
      return familyInputOf({ ...rest, history: { ...history, engine: `E-${e}` } }, "leak-down");
    });
    const fit = fitFamily("leak-down", inputs);
    expect(JSON.stringify(fitFamily("leak-down", inputs.toReversed()))).toBe(JSON.stringify(fit));
    expect(fit.repeats).toHaveLength(400);
    const all = inputs.flatMap(({ repeats }) => repeats);
    expect(all.length).toBeGreaterThan(400);
    const kept = new Set(fit.repeats.map(({ occasion }) => occasion));
    const earliest = fit.repeats.map(({ date }) => date).toSorted()[0] ?? "";
    const left = all.filter(({ occasion }) => !kept.has(occasion));
    for (const [i, one] of left.entries()) if (i % 2 === 1) expect(one.date <= addDays(earliest, 7)).toBe(true);
    for (const occasion of kept) expect(fit.repeats.filter((r) => r.occasion === occasion)).toHaveLength(2);
  });
  test("a repair between breaks an occasion; attempts of one day make one", () => {
    const repeats = (given: Parameters<typeof conditioned>[0]) =>
      familyInputOf(conditioned(given), "leak-down").repeats.map((r) => r.value);
    const tests: TestGiven[] = [
      { x: 50_000, values: [7, 8, 9, 10], date: "2024-05-01" },
      { x: 50_010, values: [8, 9, 10, 11], date: "2024-05-09" },
    ];
    expect(repeats({ model: petrol4, tests })).toEqual([8.5, 9.5]);
    expect(repeats({ tests, repairs: [{ x: 50_005, scope: "top-end", date: "2024-05-05" }] })).toEqual([]);
    const attempts = tests.map((t, i) => ({ ...t, x: 50_000, date: "2024-05-01", attempt: i + 1 }));
    expect(repeats({ tests: attempts })).toEqual([8.5, 9.5]);
  });
  test("air heard once and at neither of two later tests counts as heard in error", () => {
    const heard = (places: readonly ("exhaust" | "crankcase")[]) =>
      familyInputOf(
        conditioned({
          tests: every10000(places.map(() => [7, 8, 7, 8])).map((t, i) => ({
            ...t,
            heardAt: [places[i] as "exhaust"],
          })),
        }),
        "leak-down",
      ).heard;
    expect(heard(["crankcase", "exhaust", "crankcase", "crankcase"])).toEqual({ readings: 8, notBorneOut: 4 });
    expect(heard(["crankcase", "exhaust", "crankcase", "exhaust"])).toEqual({ readings: 8, notBorneOut: 0 });
  });
});
