import { describe, expect, test } from "vitest";
import { faultProbability, weightOf } from "@/lib/condition/fault-probability.ts";
import { studentTCdfEven } from "@/lib/statistics/student-t.ts";

const of = (size: number, sd = 1.5, before = 0.05) =>
  faultProbability({ measure: "leak-down", size, sd, level: 8 }, before);

describe("the probability that a test was spoilt", () => {
  test("is Bayes' rule over the two densities, here by differences of Student's distribution function", () => {
    for (const size of [-14, -6, -1, 0, 2, 5.25, 9, 20]) {
      const step = 1e-4;
      const density = (sd: number) => {
        const below = (at: number) => studentTCdfEven((at / sd) * Math.sqrt(8 / 6), 8);
        return (below(size + step) - below(size - step)) / (2 * step);
      };
      const [sound, spoilt] = [density(1.5), density(Math.hypot(1.5, 10))];
      const bayes = (0.05 * spoilt) / (0.05 * spoilt + 0.95 * sound);
      expect(of(size)).toBeCloseTo(bayes, 4);
    }
  });

  test("sinks below the share of such tests where nothing is off, and rises with the distance to near 1", () => {
    expect(of(0)).toBeLessThan(0.05);
    const sizes = [0, 3, 5, 7, 10, 15, 40, 95];
    const told = sizes.map((size) => of(size));
    expect(told).toEqual(told.toSorted((a, b) => a - b));
    expect(of(15)).toBeGreaterThan(0.98);
    expect(of(-10)).toBeCloseTo(of(10), 12);
    expect([of(0, 0), of(1, 0)]).toEqual([0.05, 1]);
  });

  test("counts the distance in what tests repeat to, and compression in shares of its level", () => {
    expect(of(4, 0.6)).toBeGreaterThan(0.8);
    expect(of(4, 3)).toBeLessThan(0.1);
    const compression = (level: number) =>
      faultProbability({ measure: "compression-dry", size: -0.12 * level, sd: 0.025 * level, level }, 0.05);
    expect(compression(1200)).toBeCloseTo(compression(2800), 12);
  });
});

test("a weight goes from all to what is left where it is sure", () => {
  expect([weightOf(0, 0.1), weightOf(1, 0.1), weightOf(0.5, 0.35)]).toEqual([1, 0.1, 0.675]);
});
