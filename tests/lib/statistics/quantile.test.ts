import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  median,
  medianAbsoluteDeviation,
  quantileSorted,
  sortAscending,
  weightedMedian,
} from "@/lib/statistics/quantile.ts";

const finite = fc.double({ min: -1e6, max: 1e6, noNaN: true });

describe("quantileSorted", () => {
  test("of one value is that value, at every p", () => {
    for (const p of [0, 0.3, 1]) expect(quantileSorted([7], p)).toBe(7);
  });
  test("is straight between neighbours, by type 7", () => {
    expect(quantileSorted([1, 2, 4, 8], 0.5)).toBe(3);
    expect(quantileSorted([1, 2, 4, 8], 0.25)).toBe(1.75);
    expect(quantileSorted([1, 2, 4, 8], 1)).toBe(8);
  });
  test("refuses no values and what is no probability", () => {
    expect(() => quantileSorted([], 0.5)).toThrow(RangeError);
    expect(() => quantileSorted([1], 1.1)).toThrow(RangeError);
    expect(() => quantileSorted([1], Number.NaN)).toThrow(RangeError);
  });
});

test("sortAscending sorts few and many values alike", () => {
  fc.assert(
    fc.property(fc.array(finite, { maxLength: 130 }), (values) => {
      expect([...sortAscending(Float64Array.from(values))]).toEqual([...values].sort((a, b) => a - b));
    }),
  );
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
