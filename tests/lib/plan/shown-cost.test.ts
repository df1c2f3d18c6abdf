import fc from "fast-check";
import { expect, it } from "vitest";
import { shownCost, wholeParts } from "../../../lib/plan/shown-cost.ts";
import { totalOf } from "../../../lib/plan/types.ts";

it("shows parts that add up to the rounded whole, each less than a unit off", () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 1e9, noNaN: true }), { minLength: 1, maxLength: 6 }),
      fc.constantFrom(1, 100, 1000),
      (amounts, unit) => {
        const shown = wholeParts(amounts, unit);
        const whole = amounts.reduce((a, b) => a + b, 0);
        expect(shown.reduce((a, b) => a + b, 0)).toBe(Math.round(whole / unit) * unit);
        for (const [i, part] of shown.entries()) expect(Math.abs(part - (amounts[i] as number))).toBeLessThan(unit);
      },
    ),
  );
});

it("leaves no minor unit between a booking's parts and its total", () => {
  const cost = { work: 351_275.4, downtime: 0.3, early: 0.3, late: 0 };
  expect(totalOf(shownCost(cost, 1))).toBe(Math.round(totalOf(cost)));
});
