import fc from "fast-check";
import { expect, test } from "vitest";
import { quantileSorted } from "@/lib/statistics/quantile.ts";
import { course, life } from "./made-up-courses.ts";
import { sisterBand } from "./whole.ts";

/** An engine with a straight course from one meter reading to another. */
const straight = (unit: string, from: number, to: number, level: number, slope: number) =>
  course(
    unit,
    [
      life(1, [
        [from, level + slope * from],
        [to, level + slope * to],
      ]),
    ],
    { cylinders: 1 },
  );

test("five engines give a band between the latest first and the earliest last test", () => {
  const courses = [1, 2, 3, 4, 5].map((n) => straight(`U-${n}`, 100 * n, 2000 + 100 * n, 5 + n, 0.001));
  const band = sisterBand(courses, "new", "weakest");
  expect(band.engines).toBe(5);
  const [points, ...more] = band.stretches;
  expect(more).toEqual([]);
  expect([points?.[0]?.x, points?.at(-1)?.x]).toEqual([500, 2100]);
  for (const point of points ?? []) {
    expect(point.engines).toBe(5);
    // Levels 6 to 10 and what they gained by then; of five the outer quantiles are the outer engines.
    for (const [quantile, level] of [
      ["p10", 6],
      ["p50", 8],
      ["p90", 10],
    ] as const) {
      expect(point[quantile]).toBeCloseTo(level + 0.001 * point.x, 9);
    }
  }
});

test("four engines give none, nor do five that do not overlap", () => {
  const four = [1, 2, 3, 4].map((n) => straight(`U-${n}`, 0, 1000, n, 0));
  expect(sisterBand(four, "new", "weakest")).toMatchObject({ engines: 4, stretches: [] });
  const apart = [1, 2, 3, 4, 5].map((n) => straight(`U-${n}`, 1000 * n, 1000 * n + 500, n, 0));
  expect(sisterBand(apart, "new", "weakest")).toMatchObject({ engines: 5, stretches: [] });
});

test("where too few overlap the band is broken", () => {
  const early = [1, 2, 3, 4, 5].map((n) => straight(`U-${n}`, 0, 1000, n, 0));
  const late = [6, 7, 8, 9, 10].map((n) => straight(`U-${n}`, 3000, 4000, n, 0));
  const { stretches } = sisterBand([...early, ...late], "new", "weakest");
  expect(stretches.map((points) => [points[0]?.x, points.at(-1)?.x])).toEqual([
    [0, 1000],
    [3000, 4000],
  ]);
});

test("an engine with many cylinders counts once", () => {
  const eight = course(
    "V",
    Array.from({ length: 8 }, (_, i) =>
      life(i + 1, [
        [0, 40],
        [1000, 40],
      ]),
    ),
    { cylinders: 8 },
  );
  const others = [1, 2, 3, 4].map((n) => straight(`U-${n}`, 0, 1000, n, 0));
  const [points] = sisterBand([...others, eight], "new", "weakest").stretches;
  expect(points?.[0]).toMatchObject({ engines: 5, p50: 3, p90: 40 });
  expect(sisterBand([...others, eight], "new", "each").stretches[0]?.[0]).toMatchObject({ engines: 5, p50: 40 });
});

test("agrees with the quantiles of levels looked up one by one, whatever the fleet", () => {
  const engine = fc.record({
    from: fc.integer({ min: 0, max: 500 }),
    length: fc.integer({ min: 100, max: 3000 }),
    level: fc.integer({ min: 0, max: 20 }),
    slope: fc.double({ min: -0.01, max: 0.02, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(engine, { minLength: 1, maxLength: 15 }), (engines) => {
      const courses = engines.map((e, i) => straight(`U-${i}`, e.from, e.from + e.length, e.level, e.slope));
      const { stretches } = sisterBand(courses, "new", "weakest");
      for (const point of stretches.flat()) {
        const levels = engines
          .filter((e) => point.x >= e.from && point.x <= e.from + e.length)
          .map((e) => e.level + e.slope * point.x)
          .sort((a, b) => a - b);
        expect(point.engines).toBe(levels.length);
        expect(point.engines).toBeGreaterThanOrEqual(5);
        expect(point.p90).toBeCloseTo(quantileSorted(levels, 0.9), 6);
        expect(point.p10).toBeLessThanOrEqual(point.p50);
        expect(point.p50).toBeLessThanOrEqual(point.p90);
      }
    }),
  );
});
