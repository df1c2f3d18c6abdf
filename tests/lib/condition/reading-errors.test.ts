import { describe, expect, test } from "vitest";
import { familySpread } from "@/lib/condition/family.ts";
import type { FamilyFit } from "@/lib/condition/family-fit.ts";
import { fleetRepeatability } from "@/lib/condition/fleet-repeatability.ts";
import { atError, fleetErrors, type ReadingErrors, usualErrors } from "@/lib/condition/reading-errors.ts";
import { startingSpread } from "@/lib/projection/priors.ts";
import { seededRandom } from "../../../demo-data/random.ts";
import { conditioned, every10000, petrol4, type TestGiven } from "./histories.ts";

/** A fleet whose leak-down repeats to so many points, and whose compression to so many shares of its level. */
const fleet = (shared: number, own: number, ofInstrument: Readonly<Record<string, number>> = {}): ReadingErrors => ({
  "leak-down": { shared: () => shared, own: (_, name) => own * (ofInstrument[name ?? ""] ?? 1) },
  "compression-dry": {
    shared: (level) => (shared / 60) * level,
    own: (level, name) => (own / 100) * level * (ofInstrument[name ?? ""] ?? 1),
  },
});
const sharp = fleet(0.5, 0.4);
const coarse = fleet(4, 2);
const codesOf = (tests: readonly TestGiven[], errors?: ReadingErrors) =>
  conditioned({ tests }, errors).tests.map((t) => t.doubts.map((d) => d.code).join());

const steady = Array.from({ length: 7 }, (_, i) => [7 + 0.3 * i, 8 + 0.3 * i, 7.5 + 0.3 * i, 8.5 + 0.3 * i]);
const shifted = (by: number) => every10000(steady.map((row, i) => (i === 3 ? row.map((v) => v + by) : row)));
const weightAt = (by: number, errors?: ReadingErrors) =>
  conditioned({ tests: shifted(by) }, errors).tests[3]?.weights[0] as number;

describe("doubts of a whole test", () => {
  test("begin sooner in a fleet whose tests repeat well, and later where they do not", () => {
    expect(codesOf(shifted(3.5))[3]).toBe("");
    expect(codesOf(shifted(3.5), sharp)[3]).toBe("all-cylinders-off");
    expect(codesOf(shifted(11))[3]).toBe("all-cylinders-off");
    expect(codesOf(shifted(11), coarse)[3]).toBe("");
  });

  test("never at less than two fifths of the usual threshold", () => {
    const perfect = fleet(0.001, 0.001);
    expect(codesOf(shifted(1.9), perfect)[3]).toBe("");
    expect(codesOf(shifted(2.3), perfect)[3]).toBe("all-cylinders-off");
    expect(atError(5, { is: 9, usual: 1.5 })).toBe(5);
    expect(atError(5, { is: 0.9, usual: 1.5 })).toBeCloseTo(3, 12);
  });

  test("take the more weight the surer it is that the test was spoilt", () => {
    const weights = [7, 8, 10, 16].map((by) => weightAt(by));
    expect(weights).toEqual(weights.toSorted((a, b) => b - a));
    expect(weights[0]).toBeGreaterThan(0.4);
    expect(weights[0]).toBeLessThan(0.6);
    expect(weights[3]).toBeLessThan(0.12);
    expect(weightAt(6, sharp)).toBeLessThan(0.13);
  });
});

describe("doubts of one reading of compression", () => {
  const usual = [1200, 1180, 1190, 1210];
  const high = (kpa: number, instrument: string | null = null): TestGiven[] =>
    every10000(Array.from({ length: 6 }, (_, i) => (i === 3 ? [1200, 1180, kpa, 1210] : usual))).map((t) => ({
      ...t,
      measure: "compression-dry",
      instrument,
    }));

  test("go by the fleet, and by the instrument where its tests say enough of it", () => {
    expect(codesOf(high(1250))[3]).toBe("");
    expect(codesOf(high(1250), sharp)[3]).toBe("above-siblings");
    expect(codesOf(high(1250, "old gauge"), fleet(0.5, 0.4, { "old gauge": 4 }))[3]).toBe("");
    expect(codesOf(high(1250, "new gauge"), fleet(0.5, 0.4, { "old gauge": 4 }))[3]).toBe("above-siblings");
  });

  test("keep the more weight the nearer it lies", () => {
    const weight = (kpa: number) => conditioned({ tests: high(kpa) }).tests[3]?.weights[2] as number;
    expect(weight(1285)).toBeGreaterThan(weight(1310));
    expect(weight(1310)).toBeGreaterThan(weight(1400));
    expect(weight(1400)).toBeCloseTo(0.35, 2);
  });
});

describe("made-up fleets", () => {
  /** Shares of sound tests and of tests with a fault of so many points that are doubted, over 60 engines of ten tests. */
  const doubted = (sd: number, fault: number, errors: ReadingErrors) => {
    let [sound, falsely, found] = [0, 0, 0];
    for (let engine = 1; engine <= 60; engine++) {
      const random = seededRandom(engine);
      const spoilt = 3 + (engine % 5);
      const rows = Array.from({ length: 10 }, (_, i) => {
        const shared = random.normal(0, sd) + (i === spoilt ? fault : 0);
        return [14, 15, 13, 16].map((base) => Math.max(0, base + 0.4 * i + shared + random.normal(0, sd / 2)));
      });
      for (const [i, codes] of codesOf(every10000(rows), errors).entries()) {
        const isDoubted = codes.includes("all-cylinders-off");
        if (i === spoilt) found += isDoubted ? 1 : 0;
        else {
          sound += 1;
          falsely += isDoubted ? 1 : 0;
        }
      }
    }
    return { falsely: falsely / sound, found: found / 60 };
  };

  test("a fault of 4 points is found where tests repeat to half a point, at hardly any false doubt", () => {
    expect(doubted(0.5, 4, usualErrors).found).toBe(0);
    const { found, falsely } = doubted(0.5, 4, sharp);
    expect(found).toBeGreaterThan(0.9);
    expect(falsely).toBeLessThan(0.01);
  });

  test("where tests repeat to 4 points, fewer sound ones are doubted", () => {
    const [before, after] = [doubted(4, 0, usualErrors).falsely, doubted(4, 0, fleet(4, 2)).falsely];
    expect(before).toBeGreaterThan(0.005);
    expect(after).toBe(0);
  });
});

test("the fleet's errors are those of its family, weighed against the usual ones", () => {
  const repeats = Array.from({ length: 200 }, (_, i) => ({
    occasion: `o${Math.floor(i / 2)}`,
    instrument: "LD-1",
    value: 10 + (i % 2 === 0 ? 0.3 : -0.3),
    cylinders: 4,
  }));
  const fit = { measure: "leak-down", repeats, own: [], instruments: [] } as unknown as FamilyFit;
  const starting = startingSpread(petrol4, "leak-down", "km");
  const of = (fits: readonly FamilyFit[]) =>
    familySpread("leak-down", starting, null, fleetRepeatability("leak-down", fits));
  const errors = (fits: readonly FamilyFit[]) =>
    fleetErrors({ "leak-down": of(fits), "compression-dry": of([]) })["leak-down"];
  expect(errors([]).shared(10)).toBeCloseTo(usualErrors["leak-down"].shared(10), 6);
  expect(errors([fit]).shared(10)).toBeLessThan(0.7);
});
