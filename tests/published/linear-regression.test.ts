/**
 * NIST Statistical Reference Datasets (Standard Reference Database 140), linear regression: Norris, NoInt1, Longley and
 * Wampler2 with their certified values. Tolerance as log relative error (agreeing digits): 11 for Norris and NoInt1, 8 for
 * Longley, whose columns nearly depend on each other. Norris' interval of the mean at x = 0 (the intercept's), Student t
 * with 34 degrees of freedom: recomputed independently, 1e-8.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { coefficientInterval, type LinearFit, leastSquares } from "@/lib/statistics/linear-regression.ts";

const read = (file: string) => readFileSync(new URL(`./data/${file}`, import.meta.url), "utf8");

interface Certified {
  estimate: string[];
  sd_of_estimate: string[];
  residual_sd: string;
  residual_df: number;
}

function fitOf(dataset: string, row: (x: number[]) => number[]): { fit: LinearFit; certified: Certified } {
  const lines = read(`e_strd_${dataset}.csv`).trim().split("\n").slice(1);
  const values = lines.map((line) => line.split(",").map(Number));
  const fit = leastSquares({ rows: values.map((v) => row(v.slice(1))), response: values.map((v) => v[0] as number) });
  if (fit === null) throw new Error(`${dataset} was not fitted`);
  return { fit, certified: JSON.parse(read(`e_strd_${dataset}.json`)) as Certified };
}

function expectDigits(found: number, certified: string, digits: number) {
  const wanted = Number(certified);
  expect(Math.abs(found - wanted)).toBeLessThan(10 ** -digits * (wanted === 0 ? 1 : Math.abs(wanted)));
}

const withIntercept = (x: number[]) => [1, ...x];
const fifthDegree = ([x = Number.NaN]: number[]) => [1, x, x ** 2, x ** 3, x ** 4, x ** 5];

test.each([
  { dataset: "norris", row: withIntercept, digits: 11 },
  { dataset: "noint1", row: (x: number[]) => x, digits: 11 },
  { dataset: "longley", row: withIntercept, digits: 8 },
  // An exact fit: certified standard errors are 0, left over is rounding alone.
  { dataset: "wampler2", row: fifthDegree, digits: 8 },
])("$dataset to $digits digits", ({ dataset, row, digits }) => {
  const { fit, certified } = fitOf(dataset, row);
  expect(fit.degreesOfFreedom).toBe(certified.residual_df);
  expect(fit.coefficients).toHaveLength(certified.estimate.length);
  for (const [i, c] of fit.coefficients.entries()) expectDigits(c, certified.estimate[i] as string, digits);
  for (const [i, s] of fit.standardErrors.entries()) expectDigits(s, certified.sd_of_estimate[i] as string, digits);
  expectDigits(fit.residualSd, certified.residual_sd, digits);
});

test("norris: 95 % interval of the mean at x = 0, which is the intercept's", () => {
  const published = JSON.parse(read("e_norris_intervals.json")) as { prediction: { x: number; ci95: number[] }[] };
  const [low, high] = coefficientInterval(fitOf("norris", withIntercept).fit, 0, 0.95);
  const wanted = published.prediction.find((p) => p.x === 0)?.ci95 ?? [];
  expect(low).toBeCloseTo(wanted[0] as number, 8);
  expect(high).toBeCloseTo(wanted[1] as number, 8);
});
