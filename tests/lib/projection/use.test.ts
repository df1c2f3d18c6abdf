import { describe, expect, it } from "vitest";
import { cumulativeNow, forecastUse, ownUse, poolUse } from "../../../lib/projection/use.ts";

const points = (...rows: [string, number][]) =>
  rows.map(([date, cumulative]) => ({ date, meter: cumulative, cumulative }));

describe("use", () => {
  it("is the mean a day between readings", () => {
    const use = ownUse(points(["2025-08-31", 0], ["2026-08-31", 730]), "2026-08-31");
    expect(use?.perDay).toBeCloseTo(2, 10);
  });

  it("counts recent intervals more", () => {
    const use = ownUse(points(["2023-08-31", 0], ["2025-08-31", 730], ["2026-08-31", 730 + 1460]), "2026-08-31");
    expect(use?.perDay).toBeGreaterThan((730 + 1460) / 1096);
  });

  it("of fewer than two readings a week apart is not known", () => {
    expect(ownUse(points(["2026-08-30", 5], ["2026-08-31", 900]), "2026-08-31")).toBeNull();
    expect(ownUse([], "2026-08-31")).toBeNull();
  });

  it("leans on the pool the less, the steadier and longer its own readings are", () => {
    const pool = poolUse(
      [
        { perDay: 10, logVariance: 0.01, intervals: 5 },
        { perDay: 8, logVariance: 0.01, intervals: 5 },
      ],
      "h",
    );
    const long = ownUse(
      points(["2025-01-01", 0], ["2025-06-01", 302], ["2026-01-01", 730], ["2026-06-01", 1032]),
      "2026-06-01",
    );
    const one = ownUse(points(["2026-05-01", 0], ["2026-06-01", 62]), "2026-06-01");
    const none = forecastUse(null, pool, "2026-06-01");
    expect(none.perDay).toBeCloseTo(Math.sqrt(80), 6);
    expect(forecastUse(long, pool, "2026-06-01").perDay).toBeLessThan(2.1);
    expect(forecastUse(one, pool, "2026-06-01").perDay).toBeGreaterThan(forecastUse(long, pool, "2026-06-01").perDay);
    expect(forecastUse(long, pool, "2026-06-01").logSd).toBeLessThan(none.logSd);
  });

  it("is pooled from what most units do, whatever one of them reads", () => {
    const of = (...perDays: number[]) =>
      poolUse(
        perDays.map((perDay) => ({ perDay, logVariance: null, intervals: 1 })),
        "km",
      );
    expect(Math.exp(of(80, 80, 80, 0.001).logMean)).toBeCloseTo(80, 6);
    expect(Math.exp(of(75, 80, 85, 90, 2e9).logMean)).toBeCloseTo(85, 6);
    expect(of(75, 80, 85, 90, 2e9).logSd).toBeLessThan(0.5);
    // One or two say little of the spread, and many that read the same do not make the next one certain.
    expect(of(80).logSd).toBeGreaterThan(of(70, 75, 80, 85, 90, 95).logSd);
    expect(of(...Array<number>(1000).fill(80)).logSd).toBeGreaterThan(0.05);
  });

  it("is never zero, not for a unit that stands", () => {
    const standing = ownUse(points(["2025-01-01", 500], ["2026-01-01", 500]), "2026-06-01");
    expect(forecastUse(standing, poolUse([], "km"), "2026-06-01").perDay).toBeGreaterThan(0);
  });

  it("carries the meter forward from its last reading", () => {
    const use = { perDay: 3, logSd: 0.1, intervals: 4 };
    expect(cumulativeNow(points(["2026-06-01", 1000]), use, "2026-06-11")).toBeCloseTo(1030, 10);
    expect(cumulativeNow([], use, "2026-06-11")).toBe(0);
  });
});
