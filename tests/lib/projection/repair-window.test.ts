import { describe, expect, it } from "vitest";
import { firstCrossingOfClass, soonerOf } from "../../../lib/projection/repair-window.ts";

const ahead = Float64Array.from([0, 1, 2, 3, 4]);
const distribution = (...p: number[]) => ({ ahead, probability: Float64Array.from(p) });
const rising = distribution(0, 0.1, 0.3, 0.6, 0.9);

describe("firstCrossingOfClass", () => {
  it("of one cylinder is that cylinder's own", () => {
    const d = firstCrossingOfClass([{ distribution: rising, classProbability: 1 }], 0, ahead);
    for (const [i, p] of d.probability.entries()) expect(p).toBeCloseTo(rising.probability[i] ?? 0, 12);
  });

  it("of independent cylinders is the product rule", () => {
    const members = [rising, rising, rising].map((d) => ({ distribution: d, classProbability: 1 }));
    const d = firstCrossingOfClass(members, 0, ahead);
    for (const [i, p] of d.probability.entries())
      expect(p).toBeCloseTo(1 - (1 - (rising.probability[i] ?? 0)) ** 3, 12);
  });

  it("of cylinders that share nearly all uncertainty comes hardly sooner than one alone", () => {
    const members = [rising, rising, rising, rising].map((d) => ({ distribution: d, classProbability: 1 }));
    const d = firstCrossingOfClass(members, 0.98, ahead);
    for (const [i, p] of d.probability.entries()) {
      expect(p).toBeGreaterThanOrEqual((rising.probability[i] ?? 0) - 0.05);
      expect(p).toBeLessThan((rising.probability[i] ?? 0) + 0.13);
    }
  });

  it("of many cylinders that share one small doubt about their class is no likelier than the doubt", () => {
    const certain = distribution(0, 0.5, 1, 1, 1);
    const members = Array.from({ length: 16 }, () => ({ distribution: certain, classProbability: 0.02 }));
    expect(firstCrossingOfClass(members, 0.5, ahead).probability[4]).toBeCloseTo(0.02, 10);
    const one = { distribution: certain, classProbability: 0.9 };
    expect(firstCrossingOfClass([...members, one], 0.5, ahead).probability[4]).toBeCloseTo(0.9, 10);
  });

  it("stays below one where the class is in doubt, and is nothing without members", () => {
    const certain = distribution(0, 0.5, 1, 1, 1);
    const d = firstCrossingOfClass([{ distribution: certain, classProbability: 0.4 }], 0.5, ahead);
    expect(d.probability[4]).toBeCloseTo(0.4, 10);
    expect([...firstCrossingOfClass([], 0.5, ahead).probability]).toEqual([0, 0, 0, 0, 0]);
  });
});

it("the sooner of two limits decides at each distance", () => {
  const other = distribution(0, 0.2, 0.25, 0.7, 0.8);
  expect([...soonerOf(rising, other).probability]).toEqual([0, 0.2, 0.3, 0.7, 0.9]);
});
