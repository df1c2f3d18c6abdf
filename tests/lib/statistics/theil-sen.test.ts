import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { theilSenLine } from "@/lib/statistics/theil-sen.ts";

describe("theilSenLine", () => {
  test("needs two different x", () => {
    expect(theilSenLine([], [])).toBeNull();
    expect(theilSenLine([3], [1])).toBeNull();
    expect(theilSenLine([3, 3], [1, 2])).toBeNull();
    expect(theilSenLine([3, 3, 4], [1, 2, 5])).toEqual({ slope: 3.5, intercept: -9 });
  });

  test("follows the line of the many, not the wild few", () => {
    const x = Array.from({ length: 15 }, (_, i) => i * 100);
    const y = x.map((v, i) => (i % 5 === 2 ? 900 : 4 + 0.02 * v));
    expect(theilSenLine(x, y)?.slope).toBeCloseTo(0.02, 12);
    expect(theilSenLine(x, y)?.intercept).toBeCloseTo(4, 9);
  });

  test("of more than 200 points uses 200 from end to end and still finds the line", () => {
    const x = Array.from({ length: 1000 }, (_, i) => i);
    const line = theilSenLine(
      x,
      x.map((v) => 3 - 0.5 * v),
    );
    expect(line?.slope).toBeCloseTo(-0.5, 12);
    expect(line?.intercept).toBeCloseTo(3, 9);
  });

  test("goes with a change of the units of x and y", () => {
    const point = fc.tuple(fc.integer({ min: 0, max: 1000 }), fc.double({ min: -50, max: 50, noNaN: true }));
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 20 }), (points) => {
        const sorted = points.toSorted((a, b) => a[0] - b[0]);
        const x = sorted.map((p) => p[0]);
        const y = sorted.map((p) => p[1]);
        const line = theilSenLine(x, y);
        const other = theilSenLine(
          x.map((v) => 2 * v + 8),
          y.map((v) => 4 * v - 1),
        );
        if (line === null) expect(other).toBeNull();
        else expect(other?.slope).toBeCloseTo(2 * line.slope, 9);
      }),
    );
  });
});
