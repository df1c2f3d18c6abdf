import { describe, expect, it } from "vitest";
import { coverageOf, fleetKinds } from "../../bench/coverage.ts";

/** The bench prints more; these guard the promise that a range holds the truth about 8 times in 10. */
describe("on simulated linear wear", () => {
  for (const kind of fleetKinds.filter((k) => k.engines === 150)) {
    it(`P10 to P90 holds the true crossing as often as it says, within 10 points: ${kind.name}`, () => {
      const results = [21, 22].map((seed) => coverageOf(kind, seed));
      const count = results.reduce((sum, r) => sum + r.cylinders, 0);
      const held = results.reduce((sum, r) => sum + r.cylinders * r.coverage, 0) / count;
      expect(count).toBeGreaterThan(400);
      const nominal = results.reduce((sum, r) => sum + r.cylinders * r.nominal, 0) / count;
      expect(Math.abs(held - nominal)).toBeLessThan(0.1);
    });
  }

  it("with three tests the likely crossing lies nearer than a least-squares line's", () => {
    const result = coverageOf(fleetKinds[0] as (typeof fleetKinds)[number], 23);
    expect(result.medianRelativeError).toBeLessThan(result.leastSquaresError);
  });
});
