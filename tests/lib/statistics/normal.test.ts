import stdlibCdf from "@stdlib/stats-base-dists-normal-cdf";
import stdlibQuantile from "@stdlib/stats-base-dists-normal-quantile";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalCdf, normalDensity, normalNodes, normalQuantile, scaledUpperTail } from "@/lib/statistics/normal.ts";

const relativeError = (found: number, wanted: number) => Math.abs(found - wanted) / Math.abs(wanted);

describe("normalCdf", () => {
  test("agrees with an independent library: 1e-13 relative, 3e-13 far out, where rounding of z alone costs that", () => {
    for (let z = -37; z <= 9; z += 0.0137)
      expect(relativeError(normalCdf(z), stdlibCdf(z, 0, 1))).toBeLessThan(z < -20 ? 3e-13 : 1e-13);
  });

  test("is 0, ½ and 1 at its ends and middle, and NaN for NaN", () => {
    expect(normalCdf(-Infinity)).toBe(0);
    expect(normalCdf(-50)).toBe(0);
    expect(normalCdf(0)).toBe(0.5);
    expect(normalCdf(50)).toBe(1);
    expect(normalCdf(Infinity)).toBe(1);
    expect(normalCdf(Number.NaN)).toBeNaN();
  });

  test("never falls, also across the seams of its approximations", () => {
    for (const seam of [0.46875 * Math.SQRT2, 4 * Math.SQRT2])
      for (const sign of [-1, 1]) {
        const at = sign * seam;
        expect(normalCdf(at - 1e-6)).toBeLessThan(normalCdf(at + 1e-6));
      }
    fc.assert(
      fc.property(
        fc.double({ min: -45, max: 45, noNaN: true }),
        fc.double({ min: 0, max: 3, noNaN: true }),
        (z, up) => {
          expect(normalCdf(z + up) - normalCdf(z)).toBeGreaterThanOrEqual(-2e-16);
        },
      ),
    );
  });
});

test("scaledUpperTail times its exponential is the upper tail", () => {
  for (let z = 0; z < 20; z += 0.05)
    expect(relativeError(scaledUpperTail(z) * Math.exp(-z * z * 0.5), stdlibCdf(-z, 0, 1))).toBeLessThan(1e-13);
  expect(scaledUpperTail(Infinity)).toBe(0);
});

test("scaledUpperTail far out, by Laplace's continued fraction as the slow twin", () => {
  for (const z of [40, 100, 1e4]) {
    let fraction = 0;
    for (let k = 200; k >= 1; k--) fraction = k / (z + fraction);
    expect(relativeError(scaledUpperTail(z), 1 / ((z + fraction) * Math.sqrt(2 * Math.PI)))).toBeLessThan(1e-14);
  }
});

describe("normalQuantile", () => {
  test("agrees with an independent library", () => {
    for (let p = 0.0005; p < 1; p += 0.0007)
      expect(Math.abs(normalQuantile(p) - stdlibQuantile(p, 0, 1))).toBeLessThan(1e-13);
  });

  test("undoes normalCdf, also far out in the tail", () => {
    for (let z = -37; z < 5; z += 0.31) expect(relativeError(normalQuantile(normalCdf(z)), z)).toBeLessThan(1e-9);
    for (const p of [1e-300, 1e-100, 1e-20, 1e-10])
      expect(relativeError(normalCdf(normalQuantile(p)), p)).toBeLessThan(1e-12);
  });

  test("is infinite at 0 and 1 and refuses what is no probability", () => {
    expect(normalQuantile(0)).toBe(-Infinity);
    expect(normalQuantile(1)).toBe(Infinity);
    for (const p of [-0.1, 1.1, Number.NaN]) expect(() => normalQuantile(p)).toThrow(RangeError);
  });
});

test("nodes stand for the distribution by mean and variance, and the density is the slope of the distribution", () => {
  for (const n of [2, 9, 11]) {
    const nodes = normalNodes(n);
    expect(nodes).toHaveLength(n);
    expect(nodes.reduce((sum, z) => sum + z, 0)).toBeCloseTo(0, 12);
    expect(nodes.reduce((sum, z) => sum + z * z, 0) / n).toBeCloseTo(1, 12);
  }
  for (const z of [-2, 0, 0.7]) {
    expect(normalDensity(z)).toBeCloseTo((normalCdf(z + 1e-5) - normalCdf(z - 1e-5)) / 2e-5, 8);
  }
  expect(normalDensity(Number.POSITIVE_INFINITY)).toBe(0);
});
