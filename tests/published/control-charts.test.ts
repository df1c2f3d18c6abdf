import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
import { chiSquareQuantile, sdInterval } from "@/lib/statistics/chi-square.ts";
import { cusumLimit, cusumRunLength, cusumStep } from "@/lib/statistics/cusum.ts";
import { ewmaChart } from "@/lib/statistics/ewma.ts";
import { normalCdf } from "@/lib/statistics/normal.ts";
import { studentTCdfEven, studentTQuantile } from "@/lib/statistics/student-t.ts";

/**
 * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3 (tabular CUSUM) and 6.3.2.4 (EWMA): printed figures, and the same
 * recomputed exactly. Run lengths of a one-sided CUSUM: 930.9 and 335.4 at allowance 0.5 and limits 5 and 4, twice the
 * two-sided 465 and 168 of the handbook's table in 6.3.2.3.1.
 */
const folder = path.resolve(import.meta.dirname, "data");
const read = (name: string) => readFileSync(path.join(folder, name), "utf8").trimEnd().split("\n").slice(1);
const handbook = JSON.parse(readFileSync(path.join(folder, "f_nist_ehandbook.json"), "utf8"));

describe("tabular CUSUM", () => {
  const { target, k, h } = handbook.cusum;
  const rows = read("f_nist_cusum.csv").map((line) => line.split(",").map(Number));
  const run = (sign: 1 | -1) => {
    let sum = 0;
    return rows.map(([, mean]) => {
      sum = cusumStep(sum, sign * ((mean as number) - target) - k);
      return sum;
    });
  };
  test("sums as recomputed, and as printed to two digits", () => {
    for (const [i, high] of run(1).entries()) {
      expect(high).toBeCloseTo(rows[i]?.[3] as number, 9);
      expect(Math.abs(high - (rows[i]?.[6] as number))).toBeLessThanOrEqual(0.005 + 1e-9);
    }
    for (const [i, low] of run(-1).entries()) expect(low).toBeCloseTo(rows[i]?.[4] as number, 9);
  });
  test("the first group that signals", () => {
    expect(run(1).findIndex((sum) => sum > h) + 1).toBe(handbook.cusum.first_signal_group);
  });
});

describe("EWMA", () => {
  const { lambda, target, s, ucl, lcl } = handbook.ewma;
  const rows = read("f_nist_ewma.csv").map((line) => line.split(",").map(Number));
  const chart = ewmaChart(
    rows.map(([, value]) => value as number),
    { target, sd: s, lambda, limit: 3 },
  );
  test("averages as recomputed, and as printed", () => {
    for (const [i, { average }] of chart.entries()) {
      expect(average).toBeCloseTo(rows[i]?.[2] as number, 9);
      expect(Math.abs(average - (rows[i]?.[3] as number))).toBeLessThanOrEqual(0.005 + 1e-9);
    }
  });
  test("limits by the exact variance, which end at the handbook's", () => {
    for (const [i, { upper, lower }] of chart.entries()) {
      expect(upper).toBeCloseTo(rows[i]?.[4] as number, 7);
      expect(lower).toBeCloseTo(rows[i]?.[5] as number, 7);
    }
    expect(chart.at(-1)?.upper).toBeCloseTo(ucl, 4);
    expect(chart.at(-1)?.lower).toBeCloseTo(lcl, 4);
  });
});

describe("run length of a CUSUM", () => {
  const additions = (y: number) => normalCdf(y + 0.5);
  test("as tabled", () => {
    expect(cusumRunLength(additions, 5) / 2 / 465).toBeCloseTo(1, 2);
    expect(cusumRunLength(additions, 4) / 2 / 168).toBeCloseTo(1, 2);
  });
  test("and back", () => {
    expect(cusumLimit(additions, 930.9)).toBeCloseTo(5, 2);
    expect(cusumLimit(additions, 335.4)).toBeCloseTo(4, 2);
  });
});

test("Student's t in closed form is the inverse of its quantile", () => {
  for (const p of [0.001, 0.2, 0.5, 0.9, 0.9995]) {
    for (const freedom of [2, 4, 8, 30])
      expect(studentTCdfEven(studentTQuantile(p, freedom), freedom)).toBeCloseTo(p, 10);
  }
  expect(() => studentTCdfEven(1, 7)).toThrow(RangeError);
});

test("chi-square quantiles as recomputed by two programs, to the accuracy of the cube root", () => {
  const { chi_square } = JSON.parse(readFileSync(path.join(folder, "j_quantiles.json"), "utf8"));
  for (const [freedom, within] of [
    [5, 0.05],
    [10, 0.01],
    [30, 0.01],
  ] as const) {
    for (const [p, value] of Object.entries<number>(chi_square[`df=${freedom}`])) {
      expect(Math.abs(chiSquareQuantile(Number(p), freedom) / value - 1)).toBeLessThan(within);
    }
  }
});

test("interval of a standard deviation: chi-square points 3.247 and 20.483 of 10 degrees of freedom", () => {
  const [low, high] = sdInterval(1, 10);
  expect(low).toBeCloseTo(Math.sqrt(10 / 20.4832), 2);
  expect(high).toBeCloseTo(Math.sqrt(10 / 3.24697), 1);
});
