import { describe, expect, it } from "vitest";
import { priceFactors, workCost } from "../../lib/plan/week-costs.ts";

/**
 * Growth of prices is compound interest: what costs P on the day of the prices costs P (1 + e)^t after t years, whole or not, at e a
 * year. A year is 365.2425 days on average, so a date n calendar years on lies up to a day beside n years: at 10 % a year that is a
 * part in 3,800, by which figures may miss the printed ones (0.03 %); printed figures are rounded besides.
 */
const dayOfAYear = 3e-4;
const grown = (rate: number, from: string, to: string) =>
  priceFactors({ priceDate: from, labour: rate, parts: 0 }, to).labour;

describe("growth of prices", () => {
  // Power Plant Engineering (a textbook of 1996), chapter 2, equations 2-1 and 2-3 with their examples; read as an excerpt, its year from
  // memory. 1,000 grown at 5 % comes to 1,157.63 after three years and 1,215.51 after four; at 10 % to 1,016.01 after two months, and
  // to 1,100 after twelve.
  it.each([
    { rate: 0.05, from: "2026-07-01", to: "2029-07-01", amount: 1_157.63 },
    { rate: 0.05, from: "2026-07-01", to: "2030-07-01", amount: 1_215.51 },
    { rate: 0.1, from: "2026-03-01", to: "2026-05-01", amount: 1_016.01 },
    { rate: 0.1, from: "2026-03-01", to: "2027-03-01", amount: 1_100 },
  ])("is that of a textbook's examples: $rate a year from $from to $to", ({ rate, from, to, amount }) => {
    expect(Math.abs((1_000 * grown(rate, from, to)) / amount - 1)).toBeLessThan(dayOfAYear);
  });

  // The single-payment compound-amount factor (F/P, i, n) of any table of interest factors, three decimals; from memory.
  it.each([
    { percent: 3, years: 5, factor: 1.159 },
    { percent: 3, years: 10, factor: 1.344 },
    { percent: 4, years: 5, factor: 1.217 },
    { percent: 4, years: 10, factor: 1.48 },
    { percent: 6, years: 2, factor: 1.124 },
  ])("is the table's factor for $percent % over $years years", ({ percent, years, factor }) => {
    const by = grown(percent / 100, "2026-07-01", `${2026 + years}-07-01`);
    expect(Math.abs(by - factor)).toBeLessThan(0.0005 + dayOfAYear * factor);
  });

  // Life-cycle costing (NIST Handbook 135 and the tables made after it): growth E of prices that grow by e beside inflation I is
  // E = e + I + e I.
  it("compounds two rates as life-cycle costing does", () => {
    const [e, inflation] = [0.02, 0.03];
    const [from, to] = ["2026-07-01", "2033-02-17"] as const;
    const together = grown(e + inflation + e * inflation, from, to);
    expect(together).toBeCloseTo(grown(e, from, to) * grown(inflation, from, to), 12);
  });

  it("grows labour with machining, and parts, each at its own rate, and nothing before the day of the prices", () => {
    const prices = { priceDate: "2026-07-01", labour: 0.03, parts: 0.05 };
    const work = { labour: 80_000, machining: 20_000, parts: 100_000 };
    // 100,000 × 1.03³ + 100,000 × 1.05³
    const after = workCost(work, prices, "2029-07-01");
    expect(Math.abs(after / (109_272.7 + 115_762.5) - 1)).toBeLessThan(dayOfAYear);
    expect(workCost(work, prices, "2025-01-01")).toBe(200_000);
  });
});
