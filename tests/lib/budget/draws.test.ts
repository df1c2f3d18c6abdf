import { expect, it } from "vitest";
import { usualDraws } from "../../../lib/budget/draws.ts";

it("falls as units grow in number, without a jump, between two bounds, and is even", () => {
  expect([0, 1, 40].map(usualDraws)).toEqual([40_000, 40_000, 40_000]);
  expect([80, 160, 200, 201, 5_000].map(usualDraws)).toEqual([20_000, 10_000, 10_000, 10_000, 10_000]);
  for (let units = 1; units <= 400; units++) {
    const [draws, more] = [usualDraws(units), usualDraws(units + 1)];
    expect(draws % 2).toBe(0);
    expect(more).toBeLessThanOrEqual(draws);
    expect(draws - more).toBeLessThanOrEqual(0.03 * draws);
    // No fleet of up to 160 units takes longer than that of the demo.
    if (units <= 160) expect(units * draws).toBeLessThanOrEqual(1_600_000 + units);
  }
});
