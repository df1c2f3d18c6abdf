import { describe, expect, test } from "vitest";
import { assumedStart, lifeStarts } from "@/lib/projection/life-start.ts";

const usualLife = 10_000;
const never = { origin: 0, originKnown: false };

describe("the beginning of an engine's life", () => {
  test("is the renewal on file, however long before the first test", () => {
    const before = { origin: 500, originKnown: true, first: 30_000 };
    expect(lifeStarts(before, usualLife)).toEqual([{ from: 500, share: 1 }]);
    expect(assumedStart(before, usualLife)).toBe(500);
  });

  test("is the meter's 0 where it was tested soon", () => {
    expect(lifeStarts({ ...never, first: 1000 }, usualLife)).toEqual([{ from: 0, share: 1 }]);
  });

  test("is as likely any later one after a whole usual life, and likelier after two", () => {
    const shares = [2000, 10_000, 20_000].map((first) => {
      const starts = lifeStarts({ ...never, first }, usualLife);
      expect(starts.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
      for (const { from } of starts) expect(from >= 0 && from < first).toBe(true);
      return starts[0]?.share;
    });
    expect(shares[1]).toBeCloseTo(0.5, 12);
    expect(shares[2]).toBeCloseTo(0.25, 12);
    expect(shares[0]).toBeGreaterThan(0.8);
  });

  test("is taken for no more than half a usual life ago at a first look", () => {
    expect(assumedStart({ ...never, first: 30_000 }, usualLife)).toBe(25_000);
    expect(assumedStart({ ...never, first: 3000 }, usualLife)).toBe(0);
  });
});
