import fc from "fast-check";
import { expect, test } from "vitest";
import { mannKendall } from "@/lib/statistics/mann-kendall.ts";

test("a steady rise counts every pair", () => {
  expect(mannKendall([1, 2, 3, 4, 5, 6])).toMatchObject({ s: 15, variance: 510 / 18 });
  expect(mannKendall([1, 2, 3, 4, 5, 6]).pValue).toBeLessThan(0.01);
});

test("no trend to be seen in nothing, in one value, or in equal values", () => {
  for (const values of [[], [4], [4, 4, 4, 4]]) expect(mannKendall(values)).toMatchObject({ s: 0, z: 0, pValue: 1 });
});

test("the other way round the sign turns and the p-value stays; a rising change of scale changes nothing", () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -20, max: 20 }), { maxLength: 25 }), (values) => {
      const found = mannKendall(values);
      const turned = mannKendall(values.toReversed());
      expect(turned.s + found.s).toBe(0);
      expect(turned.pValue).toBe(found.pValue);
      expect(mannKendall(values.map((v) => v ** 3 + 7))).toEqual(found);
    }),
  );
});
