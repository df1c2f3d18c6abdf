import { describe, expect, test } from "vitest";
import { seededRandom } from "@/demo-data/random.ts";
import { fitPools, wearPoolFor } from "@/lib/assessment/pools.ts";
import { addDays } from "@/lib/calendar.ts";
import { testerCourses } from "@/lib/comparison/tester-courses.ts";
import { conditionEngine } from "@/lib/condition/condition.ts";
import type { InstrumentHint, TesterCourse } from "@/lib/schema/comparison.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import { dry, petrol4 } from "../assessment/made-up-fleet.ts";
import { fleet, unitFact } from "../sealing/facts.ts";
import { compareTesters } from "./whole.ts";

const since = "2025-01-01";

/** Engines that wear at about the expected rate, tested by one gauge each half year; compression, % above the usual. */
function gaugeCourses({
  engines,
  by = 0,
  seed = 1,
  one = by,
}: Readonly<Record<"engines" | "seed", number>> & { by?: number; one?: number }): TesterCourse[] {
  const random = seededRandom(seed);
  return Array.from({ length: engines }, (_, e): TesterCourse => {
    const rate = random.normal(-0.6, 0.3);
    return {
      unit: `V-${101 + e}`,
      engine: `E-${e}`,
      measure: "compression-dry",
      rate: -0.6,
      rateSd: 0.3,
      usual: 1180,
      begunBy: null,
      tests: Array.from({ length: 8 }, (_, t) => {
        const date = addDays("2022-10-05", 182 * t + random.whole(0, 20));
        const off = date >= since ? (e === 0 ? one : by) : 0;
        const above = rate * t + random.normal(0, 2.5) + off;
        return {
          x: t,
          date,
          instrument: "gauge G-7",
          orificeMm: null,
          depot: "Lowmarsh",
          testedBy: null,
          above,
          sd: 2.6,
        };
      }),
    };
  });
}

const hintsOf = (given: Parameters<typeof gaugeCourses>[0]): readonly InstrumentHint[] =>
  compareTesters("compression-dry", gaugeCourses(given)).hints ?? [];
const seeds = Array.from({ length: 100 }, (_, i) => i + 1);

describe("a gauge used on fewer engines than it takes to call it off", () => {
  test.each([3, 4, 5, 6])(
    "and that reads 9 %% low on all %i of them is hinted at, with its date and its size",
    (engines) => {
      const told = seeds.map((seed) => {
        const { steps, hints } = compareTesters("compression-dry", gaugeCourses({ engines, by: -9, seed }));
        return steps?.length ? "step" : (hints?.[0] ?? "none");
      });
      const hints = told.filter((of) => typeof of === "object");
      // Where the method finds it by itself nothing is left to hint at.
      expect(told.filter((of) => of === "none").length).toBeLessThan(20);
      const right = hints.filter(({ mean, from }) => Math.abs(mean + 9) < 4 && from > "2024-06" && from < "2025-10");
      expect(right.length).toBeGreaterThanOrEqual(0.9 * hints.length);
      for (const hint of hints) {
        expect(hint).toMatchObject({ instrument: "gauge G-7" });
        expect(hint.engines).toBeLessThanOrEqual(engines);
        expect(hint.probability).toBeGreaterThanOrEqual(0.15);
      }
    },
  );

  test.each([2, 3, 4, 6])("and that reads right is hardly ever hinted at: %i engines", (engines) => {
    expect(seeds.filter((seed) => hintsOf({ engines, seed }).length > 0).length).toBeLessThanOrEqual(5);
  });

  test("nothing is hinted at where one engine alone stepped, nor of a single engine, nor where engines are enough", () => {
    expect(seeds.filter((seed) => hintsOf({ engines: 4, by: 0, one: -25, seed }).length > 0).length).toBeLessThan(5);
    expect(seeds.flatMap((seed) => hintsOf({ engines: 1, by: -9, seed }))).toEqual([]);
    expect(seeds.flatMap((seed) => hintsOf({ engines: 7, by: -9, seed }))).toEqual([]);
  });
});

/** What is told of a gauge from the tests on, under a pool that was fitted across its step. */
function toldFromTests(engines: number, share: number, seed: number): "found" | "hint" | "nothing" {
  const random = seededRandom(seed);
  const units = Array.from({ length: engines }, (_, u) => unitFact({ unit: `V-${101 + u}`, engineModel: petrol4.id }));
  const tests = units.flatMap(({ unit }) =>
    Array.from({ length: 8 }, (_, t) => {
      const date = addDays("2022-10-05", 182 * t + random.whole(0, 20));
      const shared = random.normal(0, 8);
      const off = date >= since ? share : 1;
      const values = [1, 2, 3, 4].map(() => Math.round(off * (1180 - 3 * t + shared + random.normal(0, 8))));
      return dry(date, 20_000 + 9000 * t, values, { unit, instrument: "gauge G-7", depot: "Lowmarsh" });
    }),
  );
  const asOf = "2026-06-30";
  const index = indexFleet(fleet({ models: [petrol4], units, tests }), { asOf });
  const pools = fitPools(index, asOf);
  const courses = index.units.flatMap((unit) =>
    testerCourses(unit, conditionEngine(index.seal(unit.engine)), (measure) =>
      wearPoolFor(pools, unit.model, measure, unit.meterUnit),
    ),
  );
  const { steps, hints } = compareTesters("compression-dry", courses);
  return steps?.length ? "found" : hints?.length ? "hint" : "nothing";
}

test("also where the pool was fitted across the step, in most fleets of three to five engines, and in no sound one", () => {
  const some = [3, 4, 5].flatMap((engines) => [1, 2, 3, 4, 5].map((seed) => [engines, seed] as const));
  const off = some.map(([engines, seed]) => toldFromTests(engines, 0.91, seed));
  expect(off.filter((told) => told !== "nothing").length).toBeGreaterThan(10);
  expect(some.map(([engines, seed]) => toldFromTests(engines, 1, seed)).filter((told) => told !== "nothing")).toEqual(
    [],
  );
});
