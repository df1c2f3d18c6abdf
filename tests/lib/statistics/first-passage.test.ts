import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { wienerFirstPassageCdf } from "@/lib/statistics/first-passage.ts";
import { normalCdf } from "@/lib/statistics/normal.ts";

/** The slow twin: the known-drift probability averaged over the drift by Simpson's rule, ±9 standard deviations. */
function byQuadrature(t: number, distance: number, drift: number, driftSd: number, wanderVariance: number): number {
  const steps = 4000;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const z = -9 + (18 * i) / steps;
    const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * Math.exp(-0.5 * z * z) * wienerFirstPassageCdf(t, distance, drift + z * driftSd, 0, wanderVariance);
  }
  return (sum * 18) / steps / 3 / Math.sqrt(2 * Math.PI);
}

describe("wienerFirstPassageCdf", () => {
  test("is the average over the drift of the known-drift probability", () => {
    for (const [t, distance, drift, driftSd, wanderVariance] of [
      [1000, 10, 0.01, 0.004, 0.01],
      [3000, 10, 0.002, 0.004, 0.02],
      [800, 4, -0.003, 0.002, 0.05],
      [50, 20, 0.3, 0.2, 0.5],
      [2, 1, -2, 0.3, 0.4],
    ] as const)
      expect(wienerFirstPassageCdf(t, distance, drift, driftSd, wanderVariance)).toBeCloseTo(
        byQuadrature(t, distance, drift, driftSd, wanderVariance),
        10,
      );
  });

  test("without wandering it is the chance that a line of unknown slope has come so far", () => {
    expect(wienerFirstPassageCdf(1000, 10, 0.008, 0.004, 0)).toBe(normalCdf(-0.5));
    expect(wienerFirstPassageCdf(1000, 10, 0.008, 0.004, 1e-14)).toBeCloseTo(normalCdf(-0.5), 8);
    expect(wienerFirstPassageCdf(999, 10, 0.01, 0, 0)).toBe(0);
    expect(wienerFirstPassageCdf(1000, 10, 0.01, 0, 0)).toBe(1);
  });

  test("a small wandering gives a result close to none, however large the exponent of the textbook form", () => {
    for (const wanderVariance of [1e-300, 1e-100, 1e-20, 1e-12]) {
      const p = wienerFirstPassageCdf(1000, 10, 0.008, 0.004, wanderVariance);
      expect(p).toBeCloseTo(normalCdf(-0.5), 6);
    }
  });

  test("reached at once with no distance, not begun with no time", () => {
    expect(wienerFirstPassageCdf(5, 0, 1, 1, 1)).toBe(1);
    expect(wienerFirstPassageCdf(0, -1, 1, 1, 1)).toBe(1);
    expect(wienerFirstPassageCdf(0, 1, 1, 1, 1)).toBe(0);
  });

  test("a drift away never reaches the limit with probability 1 − exp(2·drift·distance/variance)", () => {
    expect(wienerFirstPassageCdf(1e9, 2, -0.1, 0, 1)).toBeCloseTo(Math.exp(-0.4), 9);
  });

  test("rises with time, falls with distance, and stays a probability", () => {
    const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        size(1e-3, 1e6),
        size(1, 3),
        size(1e-3, 500),
        size(-1, 1),
        size(0, 1),
        fc.oneof(size(0, 10), size(0, 1e-9)),
        (t, longer, distance, drift, driftSd, wanderVariance) => {
          const p = wienerFirstPassageCdf(t, distance, drift, driftSd, wanderVariance);
          expect(p).toBeGreaterThanOrEqual(0);
          expect(p).toBeLessThanOrEqual(1);
          expect(wienerFirstPassageCdf(t * longer, distance, drift, driftSd, wanderVariance)).toBeGreaterThanOrEqual(
            p - 1e-12,
          );
          expect(wienerFirstPassageCdf(t, distance * longer, drift, driftSd, wanderVariance)).toBeLessThanOrEqual(
            p + 1e-12,
          );
        },
      ),
      { numRuns: 2000 },
    );
  });
});
