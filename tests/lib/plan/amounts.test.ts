import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rangeOfAmount, rangeOfSum, workRange } from "@/lib/plan/amounts.ts";
import { normalCdf } from "@/lib/statistics/normal.ts";

const z90 = 1.2815515655446004;

describe("the range of an amount", () => {
  it("has the quantiles of a log-normal whose mean is what was told", () => {
    const { low, likely, high } = rangeOfAmount({ mean: 14, spread: 0.2 });
    expect(likely).toBeCloseTo(14 * Math.exp(-0.02), 10);
    expect(Math.log(low / likely)).toBeCloseTo(-0.2 * z90, 10);
    expect(Math.log(high / likely)).toBeCloseTo(0.2 * z90, 10);
  });

  it("is a point where nothing is uncertain, and nought of nought", () => {
    expect(rangeOfAmount({ mean: 14, spread: 0 })).toEqual({ low: 14, likely: 14, high: 14 });
    expect(rangeOfAmount({ mean: 0, spread: 0.2 })).toEqual({ low: 0, likely: 0, high: 0 });
  });
});

const amount = fc.record({
  mean: fc.double({ min: 1, max: 1e6, noNaN: true }),
  spread: fc.double({ min: 0.01, max: 1, noNaN: true }),
});

/** P(A + B ≤ x) by the trapezium rule over the logarithm of A, which is smooth and dies out at both ends. */
function probabilityBelow(x: number, a: { mean: number; spread: number }, b: { mean: number; spread: number }): number {
  const at = ({ mean, spread }: typeof a, z: number) => mean * Math.exp(spread * z - (spread * spread) / 2);
  const step = 0.001;
  let sum = 0;
  for (let z = -8; z <= 8; z += step) {
    const rest = x - at(a, z);
    if (rest <= 0) continue;
    const below = normalCdf((Math.log(rest / b.mean) + (b.spread * b.spread) / 2) / b.spread);
    sum += (below * Math.exp(-0.5 * z * z) * step) / Math.sqrt(2 * Math.PI);
  }
  return sum;
}

describe("the range of a sum", () => {
  it("has the probabilities that its name says, by another way of integrating", () => {
    fc.assert(
      fc.property(amount, amount, (a, b) => {
        const { low, likely, high } = rangeOfSum(a, b);
        expect(probabilityBelow(low, a, b)).toBeCloseTo(0.1, 3);
        expect(probabilityBelow(likely, a, b)).toBeCloseTo(0.5, 3);
        expect(probabilityBelow(high, a, b)).toBeCloseTo(0.9, 3);
      }),
      { numRuns: 30 },
    );
  });

  it("is narrower than the sum of the two ranges, and no other the other way round", () => {
    fc.assert(
      fc.property(amount, amount, (a, b) => {
        const [sum, turned] = [rangeOfSum(a, b), rangeOfSum(b, a)];
        const [one, other] = [rangeOfAmount(a), rangeOfAmount(b)];
        expect(sum.high - sum.low).toBeLessThan(one.high + other.high - one.low - other.low);
        for (const edge of ["low", "likely", "high"] as const) expect(sum[edge] / turned[edge]).toBeCloseTo(1, 3);
      }),
      { numRuns: 30 },
    );
  });

  it("is the one range moved by the other amount where that is certain", () => {
    const a = { mean: 900, spread: 0.3 };
    const { low, likely, high } = rangeOfAmount(a);
    for (const sum of [rangeOfSum(a, { mean: 100, spread: 0 }), rangeOfSum({ mean: 100, spread: 0 }, a)]) {
      expect(sum).toEqual({ low: 100 + low, likely: 100 + likely, high: 100 + high });
    }
    expect(rangeOfSum(a, { mean: 0, spread: 0.2 })).toEqual({ low, likely, high });
  });
});

describe("what a work may cost", () => {
  const work = { labour: 84_000, parts: 90_000, machining: 20_000, labourHours: 14 };
  const spreads = { hoursPercent: 20, partsPercent: 30 };
  const prices = { priceDate: "2026-01-01", labour: 0.03, parts: 0.04 };

  it("grows by the prices of labour and of parts from their date on, and the hours do not", () => {
    const [now, later] = ["2026-01-01", "2027-01-01"].map((date) => workRange(work, { prices, date, spreads }));
    expect(later?.hours).toEqual(now?.hours);
    expect((later?.labour.high ?? 0) / (now?.labour.high ?? 0)).toBeCloseTo(1.03 ** (365 / 365.2425), 10);
    expect((later?.machining.low ?? 0) / (now?.machining.low ?? 0)).toBeCloseTo(1.03 ** (365 / 365.2425), 10);
    expect((later?.parts.likely ?? 0) / (now?.parts.likely ?? 0)).toBeCloseTo(1.04 ** (365 / 365.2425), 10);
  });

  it("totals parts and machining as one amount, which go together", () => {
    const { total } = workRange({ ...work, labour: 0 }, { prices, date: "2026-01-01", spreads });
    const { low, likely, high } = rangeOfAmount({ mean: 110_000, spread: 0.3 });
    expect(total).toEqual({ low, likely, high });
  });
});
