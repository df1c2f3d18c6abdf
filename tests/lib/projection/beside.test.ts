import { describe, expect, test } from "vitest";
import { besideOther, type Pair, withOther } from "@/lib/projection/beside.ts";
import { learnBeside } from "@/lib/projection/learn-beside.ts";
import type { WearObservations } from "@/lib/projection/observations.ts";
import { fitWearPool } from "@/lib/projection/pool.ts";
import { likelyLevel } from "@/lib/projection/project.ts";
import { wearScaleOf } from "@/lib/projection/scale.ts";
import type { OwnPart } from "@/lib/projection/two-parts.ts";
import { fitEngineWear, partsUnder } from "@/lib/projection/wear-model.ts";
import { type Random, seededRandom } from "../../../demo-data/random.ts";
import { petrol4 } from "../cause/engines.ts";
import { observed } from "./engine-given.ts";

/** Pairs of which the one is so much of the other, both read with errors. */
function pairs(random: Random, count: number, { slope = 0.2, scatter = 0.5, error = 1, otherError = 10 } = {}): Pair[] {
  return Array.from({ length: count }, () => {
    const truth = random.normal(0, 20);
    return {
      level: slope * truth + random.normal(0, scatter) + random.normal(0, error),
      variance: error ** 2,
      other: truth + random.normal(0, otherError),
      otherVariance: otherError ** 2,
    };
  });
}

describe("how one measure goes with the other", () => {
  test("is found whatever the errors of reading, which a plain regression would take for less", () => {
    for (const otherError of [1, 10, 20]) {
      const found = besideOther(pairs(seededRandom(7), 4000, { otherError }));
      expect(Math.abs((found?.slope ?? 0) - 0.2)).toBeLessThan(0.02);
      expect(found?.scatter).toBeLessThan(0.8);
    }
    // Where little is in its way the scatter of the one about the other is found too.
    const plain = besideOther(pairs(seededRandom(7), 4000, { otherError: 1, error: 0.5 }));
    expect(Math.abs((plain?.scatter ?? 0) - 0.25)).toBeLessThan(0.05);
  });

  test("is not told by few pairs, nor where the one does not go with the other", () => {
    expect(besideOther(pairs(seededRandom(1), 39))).toBeNull();
    for (let seed = 1; seed <= 30; seed++) {
      expect(besideOther(pairs(seededRandom(seed), 200, { slope: 0 })), `seed ${seed}`).toBeNull();
    }
  });
});

const part = (x: readonly number[], level: readonly number[], renewed: readonly number[] = []): OwnPart => ({
  x,
  level,
  testFactor: x.map(() => 0),
  ownFactor: x.map(() => 1),
  added: x.map(() => 0),
  renewed: x.map((_, i) => renewed.includes(i)),
  test: x.map((_, i) => i),
  heard: x.map(() => 0),
  ruled: x.map(() => null),
  spoilt: x.map(() => 0.05),
});

describe("readings of the other measure", () => {
  test("stand between a cylinder's own in the order of the meter, and weigh together no more than their scatter", () => {
    const merged = withOther(part([1, 3, 5], [1, 2, 3]), part([2, 3, 6], [10, 20, 30]), {
      slope: 0.1,
      scatter: 4,
      pairs: 99,
    });
    expect(merged.x).toEqual([1, 2, 3, 3, 5, 6]);
    expect(merged.level).toEqual([1, 1, 2, 2, 3, 3]);
    const told = merged.added.filter((variance) => variance > 0);
    expect(1 / told.reduce((sum, variance) => sum + 1 / variance, 0)).toBeGreaterThanOrEqual(4);
  });

  test("of before a new baseline of either are left out", () => {
    const other = part([1, 2, 3, 4], [1, 2, 3, 4], [2]);
    const merged = withOther(part([1, 2, 3], [1, 1, 1], [1]), other, { slope: 1, scatter: 0, pairs: 99 });
    expect(merged.x).toEqual([1, 2, 3, 3, 4]);
  });
});

const leakScale = wearScaleOf(petrol4, "leak-down");
const kpaPerPoint = 5;

/** Engines with a leak of its own in each cylinder, tested both ways on the same days. */
function engine(random: Random, days: number) {
  const own = [0, 1, 2, 3].map(() => Math.abs(random.normal(0, 6)));
  const x = Array.from({ length: days }, (_, t) => 500 * (t + 1));
  const read = (of: (level: number) => number, testSd: number, sd: number) =>
    x.map((_, t) => {
      const shared = random.normal(0, testSd);
      return own.map((level) => of(8 + level + 0.3 * t) + shared + random.normal(0, sd));
    });
  const compression = (rows: number[][]): WearObservations => ({
    ...observed(rows, { x }),
    measure: "compression-dry",
  });
  return {
    first: observed(
      read((level) => level, 1.5, 1),
      { x },
    ),
    second: compression(read((level) => -1200 + kpaPerPoint * level, 30, 15)),
  };
}

test("a valve that burns is seen by compression before the next leak-down test, in fleets that test both ways", () => {
  const random = seededRandom(11);
  const fleet = Array.from({ length: 25 }, (_, e) => ({
    key: `E-${String(e).padStart(2, "0")}`,
    ...engine(random, 6),
  }));
  const pools = [
    fitWearPool(
      petrol4,
      "leak-down",
      "h",
      fleet.map(({ key, first }) => ({ key, observations: first })),
    ),
    fitWearPool(
      petrol4,
      "compression-dry",
      "h",
      fleet.map(({ key, second }) => ({ key, observations: second })),
    ),
  ] as const;
  const [leak, compression] = learnBeside(petrol4, pools, fleet);
  expect(leak.other?.slope).toBeGreaterThan(0.5 / kpaPerPoint);
  expect(leak.other?.slope).toBeLessThan(2 / kpaPerPoint);
  expect(learnBeside(petrol4, pools, fleet.toReversed())[0].fingerprint).toBe(leak.fingerprint);

  const sound = observed(Array.from({ length: 5 }, (_, t) => [8, 9, 8, 8].map((v) => v + 0.2 * t)));
  const kpa = (lost: number) => [-1160, -1160, -1160 + lost, -1160];
  const rows = [...Array.from({ length: 5 }, () => kpa(0)), kpa(60), kpa(90), kpa(120)];
  const other = { ...observed(rows), measure: "compression-dry" as const };
  const levelOf = (beside: Parameters<typeof fitEngineWear>[4]) => {
    const fit = fitEngineWear(sound, leak, 4000, leakScale, beside);
    return likelyLevel(fit.cylinders[2]?.branches ?? [], leakScale);
  };
  const parts = partsUnder(other, compression, wearScaleOf(petrol4, "compression-dry"));
  expect(levelOf(null)).toBeLessThan(13);
  expect(levelOf(parts)).toBeGreaterThan(levelOf(null) + 4);
});
