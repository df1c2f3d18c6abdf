/**
 * First passage of a Wiener process with a known drift: the inverse Gaussian distribution (Chhikara & Folks 1989).
 * Values recomputed three ways (closed form, integration, two libraries); tolerance 1e-9 as they are given to 12 digits.
 */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { wienerFirstPassageCdf } from "@/lib/statistics/first-passage.ts";

interface Case {
  distance: string;
  drift: string;
  diffusion_sd: string;
  cdf: Record<string, string>;
  quantile: Record<string, string>;
}
const data = JSON.parse(readFileSync(new URL("./data/j_inverse_gaussian.json", import.meta.url), "utf8")) as {
  cases: Case[];
};

describe("inverse Gaussian distribution", () => {
  test.each(data.cases)("distance $distance, drift $drift, diffusion $diffusion_sd", (c) => {
    const at = (t: number) =>
      wienerFirstPassageCdf(t, Number(c.distance), Number(c.drift), 0, Number(c.diffusion_sd) ** 2);
    for (const [t, p] of Object.entries(c.cdf)) expect(Math.abs(at(Number(t)) / Number(p) - 1)).toBeLessThan(1e-9);
    for (const [p, t] of Object.entries(c.quantile)) expect(Math.abs(at(Number(t)) - Number(p))).toBeLessThan(1e-9);
  });

  test("where exp(2λ/μ) would overflow a double", () => {
    expect(wienerFirstPassageCdf(600, 30, 0.05, 0, 0.0004)).toBeCloseTo(0.503257132966, 9);
    expect(wienerFirstPassageCdf(610, 30, 0.05, 0, 0.0004)).toBeCloseTo(0.846235004389, 9);
    expect(wienerFirstPassageCdf(599.920012442, 30, 0.05, 0, 0.0004)).toBeCloseTo(0.5, 9);
  });
});
