import { describe, expect, test } from "vitest";
import { seededRandom } from "@/demo-data/random.ts";
import { addDays } from "@/lib/calendar.ts";
import { fitFleet } from "@/lib/comparison/instrument-biases.ts";
import type { TestFact } from "@/lib/schema/facts.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import { dry, leakDown, petrol4 } from "../assessment/made-up-fleet.ts";
import { fleet, unitFact } from "../sealing/facts.ts";

const asOf = "2026-06-30";
const seeds = [1, 2, 3, 4, 5, 6];

interface Given {
  readonly seed: number;
  /** Leakage and compression at a unit's t-th test, one of `tests` half a year apart. */
  readonly leakage?: (t: number) => number;
  readonly compression?: (t: number) => number;
  /** What an instrument adds (leakage), or multiplies by (compression). */
  readonly leakOff?: (t: number) => number;
  readonly gaugeOff?: (t: number) => number;
  readonly testers?: readonly string[];
  readonly tests?: number;
}

/** Eight units, first tested at 20,000 km and then each half year; sound testers take turns. */
function found({ seed, leakage, compression, leakOff, gaugeOff, testers = ["L-1", "L-2"], tests = 8 }: Given) {
  const random = seededRandom(seed);
  const first = addDays("2026-04-05", -182 * (tests - 1));
  const facts = Array.from({ length: 8 }, (_, u) =>
    Array.from({ length: tests }, (_, t): TestFact[] => {
      const date = addDays(first, 182 * t + random.whole(0, 20));
      const at = { unit: `V-${101 + u}`, depot: "Lowmarsh" };
      const meter = 20_000 + 9000 * t;
      const [leakShared, dryShared] = [random.normal(0, 1), random.normal(0, 10)];
      const four = (of: () => number) => [1, 2, 3, 4].map(() => Math.max(0, Math.round(of())));
      const made: TestFact[] = [];
      if (leakage) {
        const level = leakage(t) + (leakOff?.(t) ?? 0) + leakShared;
        const values = four(() => level + random.normal(0, 0.8));
        made.push(leakDown(date, meter, values, { ...at, instrument: testers[(t + u) % testers.length] ?? null }));
      }
      if (compression) {
        const level = (compression(t) + dryShared) * (gaugeOff?.(t) ?? 1);
        const values = four(() => level + random.normal(0, 8));
        made.push(dry(date, meter, values, { ...at, instrument: "gauge G-7" }));
      }
      return made;
    }).flat(),
  ).flat();
  const units = [...new Set(facts.map(({ unit }) => unit))].map((unit) => unitFact({ unit, engineModel: petrol4.id }));
  const index = indexFleet(fleet({ models: [petrol4], units, tests: facts }), { asOf });
  return fitFleet(index, asOf).biases ?? [];
}

describe("true wear that all engines share is no fault of a sound instrument", () => {
  const straight = (t: number) => 5 + (20 / 7) * t;
  const late = (t: number) => 6 + Math.max(0, 4 * (t - 4));
  const faster = (t: number) => 5 + 20 * (t / 7) ** 2.6;
  test.each(seeds)("straight, late and ever faster, by one tester or two: none is called (%i)", (seed) => {
    for (const leakage of [straight, late, faster])
      for (const testers of [["L-1"], ["L-1", "L-2"]]) expect(found({ seed, leakage, testers })).toEqual([]);
  });
  test.each(seeds)("nor where another gauge's compression falls along, or stays (%i)", (seed) => {
    for (const leakage of [straight, late, faster]) {
      expect(found({ seed, leakage, compression: (t) => 1180 * (1 - 0.12 * (t / 7) ** 2.6) })).toEqual([]);
      expect(found({ seed, leakage, compression: () => 1180 })).toEqual([]);
    }
  });
  test("nor where the compression of all engines falls, by one gauge alone, in a step that nothing speaks against", () => {
    for (const seed of seeds) expect(found({ seed, compression: (t) => (t < 5 ? 1180 : 1070) })).toEqual([]);
  });
});

describe("an instrument that steps is called beside others that do not", () => {
  const leakage = () => 6;
  test.each(seeds)("a gauge 9 % low since a date, while leakage stays (%i)", (seed) => {
    const biases = found({ seed, leakage, compression: (t) => 1180 - 3 * t, gaugeOff: (t) => (t < 5 ? 1 : 0.91) });
    expect(biases).toMatchObject([{ of: "instrument", name: "gauge G-7", until: null }]);
    expect(biases[0]?.mean).toBeGreaterThan(-11.5);
    expect(biases[0]?.mean).toBeLessThan(-7);
  });
  test.each(seeds)("a tester whose bore was exchanged reads 4.5 instead of 20 % (%i)", (seed) => {
    const biases = found({ seed, leakage: () => 20, leakOff: (t) => (t < 5 ? 0 : -15.5), testers: ["L-1"] });
    expect(biases).toMatchObject([{ measure: "leak-down", name: "L-1", until: null }]);
    expect(biases[0]?.mean).toBeLessThan(-13);
  });
  test("a gauge that is put right and drifts again is found both times", () => {
    const gaugeOff = (t: number) => ((t >= 4 && t < 8) || t >= 12 ? 0.9 : 1);
    const biases = found({ seed: 3, leakage, compression: () => 1180, gaugeOff, tests: 16 });
    expect(biases.map(({ from, until }) => [from?.slice(0, 4), until?.slice(0, 4)])).toEqual([
      ["2020", "2022"],
      ["2024", undefined],
    ]);
  });
});
