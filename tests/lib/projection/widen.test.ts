import { expect, test } from "vitest";
import { levelQuantilesAhead } from "@/lib/projection/fan.ts";
import { expectedRate } from "@/lib/projection/project.ts";
import { wearScaleOf } from "@/lib/projection/scale.ts";
import type { EngineWear, WearBranch } from "@/lib/projection/types.ts";
import { widened } from "@/lib/projection/widen.ts";
import { assessedUnit, dry, petrol4 } from "../assessment/made-up-fleet.ts";
import { unitFact } from "../sealing/facts.ts";

const scale = wearScaleOf(petrol4, "compression-dry");
const branch: WearBranch = {
  probability: 1,
  level: -1100,
  rate: 2,
  levelVariance: 81,
  rateVariance: 0.04,
  covariance: 0.3,
  wander: 0.5,
  clock: { from: 0, power: 1, unit: 1 },
  now: 10,
  isFault: false,
};
const base = assessedUnit({
  units: [unitFact()],
  tests: [1, 2, 3].map((month) => dry(`2026-0${month}-01`, 90_000 + 1000 * month, [1100, 1100, 1100, 1100])),
}).state.wear["compression-dry"];
const wear: EngineWear = {
  ...base,
  cylinders: base.cylinders.map((cylinder) => ({ ...cylinder, branches: [branch], carried: [branch] })),
};

test.each([0, 5, 40])("twice as wide after %d of use: every quantile twice as far from the likely level", (ahead) => {
  const before = levelQuantilesAhead([branch], scale, ahead);
  for (const { branches, carried } of widened(wear, 2).cylinders) {
    for (const some of [branches, carried]) {
      const after = levelQuantilesAhead(some, scale, ahead);
      expect(after[2]).toBeCloseTo(before[2], 6);
      for (const [i, level] of after.entries()) {
        expect(level - after[2]).toBeCloseTo(2 * ((before[i] ?? Number.NaN) - before[2]), 5);
      }
    }
  }
});

test("the rate stays likely what it was, half as uncertain where ranges are halved", () => {
  const before = expectedRate([branch], scale);
  const after = expectedRate(widened(wear, 0.5).cylinders[0]?.branches ?? [], scale);
  expect(after.mean).toBeCloseTo(before.mean, 9);
  expect(after.variance).toBeCloseTo(before.variance / 4, 9);
});

test("a factor of 1 leaves all as it is", () => expect(widened(wear, 1)).toBe(wear));
