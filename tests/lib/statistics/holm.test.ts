import fc from "fast-check";
import { expect, test } from "vitest";
import { holmAdjusted } from "@/lib/statistics/holm.ts";

test("keeps the order of the probabilities, lowers none, and is 1 at most", () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 12 }), (given) => {
      const adjusted = holmAdjusted(given);
      for (const [i, p] of given.entries()) {
        expect(adjusted[i]).toBeGreaterThanOrEqual(p);
        expect(adjusted[i]).toBeLessThanOrEqual(1);
        for (const [k, q] of given.entries()) if (p < q) expect(adjusted[i]).toBeLessThanOrEqual(adjusted[k] as number);
      }
    }),
  );
});

test("of one probability it is that probability, of none there is none", () => {
  expect(holmAdjusted([0.03])).toEqual([0.03]);
  expect(holmAdjusted([])).toEqual([]);
});
