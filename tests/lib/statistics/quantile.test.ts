import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  median,
  medianAbsoluteDeviation,
  medianReordering,
  quantileSorted,
  weightedMedian,
} from "@/lib/statistics/quantile.ts";

const finite = fc.double({ min: -1e6, max: 1e6, noNaN: true });

test("medianReordering is the middle of the sorted values, ties and all", () => {
  const value = fc.oneof(finite, fc.integer({ min: 0, max: 5 }));
  fc.assert(
    fc.property(fc.array(value, { minLength: 1, maxLength: 80 }), (values) => {
      const sorted = [...values].sort((a, b) => a - b);
      const [low, high] = [sorted[(sorted.length - 1) >> 1], sorted[sorted.length >> 1]] as [number, number];
      // Adding 0 makes one of the two zeros, which sorting does not tell apart.
      expect(medianReordering(Float64Array.from(values)) + 0).toBe(low + 0.5 * (high - low) + 0);
    }),
  );
  expect(() => medianReordering(new Float64Array(0))).toThrow(RangeError);
});

test("median takes the mean of the middle two and leaves its argument alone", () => {
  const values = [9, 1, 4, 2];
  expect(median(values)).toBe(3);
  expect(values).toEqual([9, 1, 4, 2]);
});

test("medianAbsoluteDeviation is scaled to a normal standard deviation and ignores a wild value", () => {
  expect(medianAbsoluteDeviation([1, 2, 3, 4, 1e9])).toBeCloseTo(1.4826, 10);
  expect(medianAbsoluteDeviation([5, 5, 5, 8])).toBe(0);
});

describe("weightedMedian", () => {
  test("with equal weights is the median", () => {
    fc.assert(
      fc.property(
        fc.array(finite, { minLength: 1, maxLength: 30 }),
        fc.double({ min: 0.1, max: 3, noNaN: true }),
        (v, w) => {
          expect(
            weightedMedian(
              v,
              v.map(() => w),
            ),
          ).toBeCloseTo(median(v), 6);
        },
      ),
    );
  });
  test("follows the weight and leaves out what has none", () => {
    expect(weightedMedian([1, 2, 10], [1, 1, 5])).toBe(10);
    expect(weightedMedian([1, 2, 10], [1, 1, 0])).toBe(1.5);
    expect(() => weightedMedian([1], [0])).toThrow(RangeError);
  });
});

test("quantileSorted stays within the values, rises with p, and its half is the median", () => {
  fc.assert(
    fc.property(
      fc.array(finite, { minLength: 1, maxLength: 30 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (values, p) => {
        const sorted = values.toSorted((a, b) => a - b);
        const [low, high] = [sorted[0] as number, sorted.at(-1) as number];
        const at = quantileSorted(sorted, p);
        expect(at).toBeGreaterThanOrEqual(low);
        expect(at).toBeLessThanOrEqual(high);
        expect(quantileSorted(sorted, Math.min(1, p + 0.1))).toBeGreaterThanOrEqual(at);
        expect(quantileSorted(sorted, 0.5)).toBeCloseTo(median(values), 6);
      },
    ),
  );
  expect(() => quantileSorted([], 0.5)).toThrow(RangeError);
});

test("of five values the 90 % quantile is the highest", () => {
  expect(quantileSorted([1, 2, 3, 4, 50], 0.9)).toBe(50);
});
